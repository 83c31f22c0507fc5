export const ABOUT_TABLES_NAME = 'about these tables.txt';

/** Laid beside the tables: how they are written, so that they can be read without the program. */
export const ABOUT_TABLES = [
  'These are the tables of one cellar, one file a table.',
  '',
  'Form. Comma-separated values as RFC 4180 describes them: UTF-8, one heading line, lines ended by CR LF, text in double',
  'quotes with a quote inside it doubled. An empty cell means that nothing is known.',
  '',
  'Numbers are whole or have a decimal point, are not rounded, and their unit stands in the heading: _ul is microlitres',
  '(1 L is 1000000), _ug micrograms (1 g is 1000000), _grams_per_100_ml grams in 100 mL, _sg specific gravity 20/20 °C,',
  '_celsius degrees Celsius. Moments are ISO 8601 in UTC and end in Z. Yes and no are true and false.',
  '',
  'Text that begins with = + - @, a tab or a line end, also behind spaces, could be run by a spreadsheet as a formula. Such',
  "text has one apostrophe (') put before it. To have it as it was, take one apostrophe off every text that begins with",
  'apostrophes followed by one of those signs; any other text is as it was written. Bringing readings in does so by itself.',
  '',
  'Ids tie the tables together: vessel_id in readings.csv is id in vessels.csv, and so on. What a cell holds that is made of',
  'parts is JSON. entries.csv is the book itself: all other tables follow from it. A picture is named by its',
  'checksum: photos.csv says what it shows, and where pictures were taken out too, picture-CHECKSUM.jpg beside it is the picture.',
  '',
].join('\r\n');
