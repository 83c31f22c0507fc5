/** Marks a SQLite file as a cellar of this program ("UCRF" in ASCII); stored at byte 68 of the file header. */
export const CELLAR_APPLICATION_ID = 0x55435246;
