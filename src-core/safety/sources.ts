/** How far a source was read: `memory` and `policy` are to be confirmed or are our own choice, and are shown as such. */
export type SourceStatus =
  'seen' | 'seen in part' | 'seen (secondary)' | 'memory' | 'policy' | 'common practice';

export interface Source {
  readonly title: string;
  readonly status: SourceStatus;
}

/** Where the safety rules stand written, by id. "Seen" means that a stored copy was read, not that the page still says so. */
export const SOURCES = {
  S1: {
    title: 'FDA CPG Sec. 525.825 Vinegar, Definitions – Adulteration with Vinegar Eels (March 1995)',
    status: 'seen',
  },
  S2: { title: 'Ohio Rev. Code 3715.28–.29 (1953)', status: 'seen' },
  S3: { title: 'Minnesota Rules 1550.3370, .3400', status: 'seen' },
  S4: { title: 'FDA CPG Sec. 525.825 (1995), paragraph on dilution', status: 'seen' },
  S5: { title: 'Codex Stan 162-1987, regional European standard for vinegar, definitions', status: 'seen' },
  S6: {
    title:
      'FAO/WHO Codex Coordinating Committee for Europe report, paras 41–44 (2000), proposes revoking 162-1987; points to EN 13188 / EN 13189',
    status: 'seen',
  },
  S7: {
    title: 'Germany, vinegar and vinegar-essence ordinance 1972 (2017): 5–15.5 g acid per 100 mL',
    status: 'seen',
  },
  S8: {
    title:
      'Technical encyclopaedia article on vinegars (French/EU limits 6 / 5 g per 100 mL; residual alcohol 0.5 / 1.5 / 3 %)',
    status: 'seen (secondary)',
  },
  S9: { title: 'Course notes on wine vinegar (6 % w/v, 1.5 % v/v)', status: 'seen (secondary)' },
  S10: {
    title: 'UK Food Standards Committee report on vinegar, abstract: accepted minimum 4 % w/v',
    status: 'seen',
  },
  S11: { title: 'Penn State Extension FAQ, homemade vinegar acidity', status: 'seen' },
  S12: { title: 'UC Master Food Preservers, vinegar article 27 Nov 2024 (grain; 4 vs 5 %)', status: 'seen' },
  S13: { title: 'UNH Extension, July 2023, relaying NCHFP notice', status: 'seen' },
  S14: { title: 'UMaine Extension, 18 July 2023, relaying NCHFP notice', status: 'seen' },
  S15: { title: 'Older USDA garden-produce bulletin: 4–6 % allowed, unknown acidity not', status: 'seen' },
  S16: {
    title: '21 CFR 114.3 definitions (equilibrium pH 4.6, aw 0.85; tomatoes 4.7 in ’low-acid’)',
    status: 'seen',
  },
  S17: { title: '21 CFR 114.80 and 114.90 (meter needed when final pH > 4.0)', status: 'seen' },
  S18: {
    title: 'Minnesota Dept. of Agriculture glossary: equilibrium pH may take hours or days',
    status: 'seen',
  },
  S19: { title: 'Colorado State Univ. Extension 9.340 Flavored Vinegars and Oils', status: 'seen in part' },
  S20: { title: 'Ask Extension 469319 on herb vinegar', status: 'seen' },
  S21: { title: 'MSU Extension, herb or fruit vinegars as gifts', status: 'seen' },
  S22: { title: 'Oklahoma State Extension, Safely infusing oils (Univ. of Idaho method)', status: 'seen' },
  S23: { title: 'Penn State Extension, preserving foods in oil', status: 'seen' },
  S24: {
    title: 'Univ. of Minnesota Extension cottage-food Q&A on pH of ferments (March 2021)',
    status: 'seen',
  },
  S25: {
    title: 'Snyder, Breidt, Andress, Ingham 2020, Food Prot. Trends 40(4):251–263',
    status: 'seen in part',
  },
  S26: {
    title: 'Iowa State Univ. FS 0045, rules on selling fermented foods (kraut 2–3 % salt, ≥ 1.5 % acid)',
    status: 'seen',
  },
  S27: { title: 'USDA and MSU Extension, kraut procedure 01600078', status: 'seen' },
  S28: { title: 'USDA/NCHFP fermented dill pickles', status: 'seen in part' },
  S29: {
    title: 'Winery laboratory sheet ’Grain strength – vinegar’ (2016), after AOAC 930.35J',
    status: 'seen',
  },
  S30: {
    title: 'Hobby how-to that multiplies mL by 0.6 with a 2 mL sample (silently assumes 0.2 N)',
    status: 'seen',
  },
  S31: { title: 'Winemaking shop page on checking NaOH with KHP', status: 'seen' },
  S32: { title: 'Laboratory notes: sodium hydroxide loses strength to CO2; check yearly', status: 'seen' },
  S33: { title: 'General pages on vinegar eels', status: 'seen (secondary)' },
  S34: { title: 'McGee, On Food and Cooking (2004), ’After Fermentation’', status: 'seen in part' },
  S35: { title: 'Univ. of Idaho/WSU food-safety column on kimchi: 2–5 % brine', status: 'seen' },
  S36: {
    title: 'NDSU Extension, sauerkraut (1–2 in under brine; do not taste if mould, slime, bad odour)',
    status: 'seen',
  },
  S37: {
    title:
      'Penn State food-safety blog on the 2021–22 E. coli O157 kimchi outbreak (Epidemiology and Infection)',
    status: 'seen',
  },
  S38: {
    title: 'Pennsylvania Dept. of Agriculture, acid/acidified/fermented foods, Rev. 1 2/2017',
    status: 'seen',
  },
  S39: {
    title: 'Consumer press on home kombucha: below 4.2 after 7 days; usual 2.5–3.5',
    status: 'seen (secondary)',
  },
  S40: { title: 'Virginia Cooperative Extension FST-297P (after Nummer 2013)', status: 'seen in part' },
  S41: { title: 'US TTB kombucha pages (0.5 % at any time)', status: 'seen' },
  S42: { title: 'FSAI (Ireland) survey and Guidance Note 37, 2021', status: 'seen in part' },
  S43: { title: 'BCCDC study of alcohol in kombucha, March 2020', status: 'seen in part' },
  S44: { title: 'Press on Canada label threshold 1.1 %', status: 'seen (secondary)' },
  S45: { title: 'CDC MMWR 44(48), 8 Dec 1995, kombucha illness, Iowa', status: 'seen in part' },
  S46: { title: 'Kombucha maker FAQ: warm bottles can break', status: 'seen' },
  S47: {
    title: 'NY Agriculture & Markets kombucha guidance (refrigerate; acidosis, container integrity hazards)',
    status: 'seen',
  },
  S48: { title: 'Food-code style kefir sheet (≤ 5.0 at about 24 h)', status: 'seen' },
  S49: { title: 'FDA CPG Sec. 510.150, patulin (November 2005)', status: 'seen in part' },
  S50: {
    title: 'Industry comment citing Codex patulin maximum 50 (µg/kg) in single-strength juice',
    status: 'seen',
  },
  S51: {
    title: 'FDA patulin supporting document, Sept 2001 (fermentation destroys; heat only moderate)',
    status: 'seen',
  },
  S52: { title: 'Penn State food-safety blog, unpasteurised cider 2015', status: 'seen' },
  S53: { title: 'Oregon State Univ. Extension 1997: heat cider to 160 °F', status: 'seen' },
  S54: { title: 'Colorado State Univ. Extension advice 1996 (Cornell: 0.1 min at 160 °F)', status: 'seen' },
  S55: { title: 'State food codes quoting 21 CFR 101.17(g)', status: 'seen' },
  S56: { title: 'US TTB on sulfite waivers, 27 CFR 4.32(e)', status: 'seen' },
  S57: { title: 'Hydrometer instructions with temperature table', status: 'seen' },
  S58: { title: 'Shop note: refractometer only before fermentation', status: 'seen' },
  S59: { title: 'WorkSafeBC WS 2023-01, SO2 and potassium metabisulfite in wineries', status: 'seen' },
  S60: { title: 'OIV-MA-C1-01 (2019): methanol 400 / 250 mg/L; lead 0.10 mg/L', status: 'seen' },
  S61: { title: 'Methanol in wine, BIO Web Conf. 9, 02028 (2017)', status: 'seen in part' },
  S62: { title: 'Law explainers on 26 U.S.C. 5601, 5042, 5053', status: 'seen' },
  S63: {
    title: 'News article reproducing TTB text on home distilling, and the 100/200 gallon rule',
    status: 'seen',
  },
  S64: { title: 'A hobbyist’s opinion on freeze concentration', status: 'seen' },
  S65: { title: 'INSPQ Québec, honey never under age 1, even cooked', status: 'seen' },
  S66: { title: 'Hobby thread: how many gravity points make a bottle unsafe', status: 'seen' },
  S67: { title: 'Home-brew advice: two equal readings 24–48 h apart', status: 'seen' },
  S68: { title: 'Cider-making discussion list: carbonation arithmetic', status: 'seen' },
  S69: { title: 'Forum: primed cider jug burst; jugs not rated', status: 'seen' },
  S70: { title: 'Kraut/kombucha maker pages on burping', status: 'seen (secondary)' },
  S71: { title: 'Blog: mead refermented after room was heated', status: 'seen' },
  S72: { title: 'Blog: bottles burst in box when lifted', status: 'seen' },
  S73: { title: 'NIOSH/OSHA 1989 PEL project comments, CO2 (rule later remanded)', status: 'seen' },
  S74: { title: 'Health-risk summary citing NIOSH 1996 IDLH 40 000 ppm', status: 'seen (secondary)' },
  S75: { title: 'Trade and news notes: 40–60 L CO2 per litre of juice', status: 'seen (secondary)' },
  S76: { title: 'Hobby winemaker’s account and symptom list', status: 'seen' },
  S77: {
    title: 'Rev. Esp. Salud Pública 2023, e202305040: family lead poisoning, kombucha in ceramic',
    status: 'seen in part',
  },
  S78: { title: 'Newspaper with UMaine Extension educator on old crocks', status: 'seen' },
  S79: { title: 'Ask Extension 585976 on an old clay crock', status: 'seen' },
  S80: { title: 'MSU Extension 01600817: galvanised ware and zinc poisoning', status: 'seen' },
  S81: {
    title: 'Recipe index quoting extension rules: no aluminium, copper, brass, galvanised, iron',
    status: 'seen (secondary)',
  },
  S82: { title: 'Ohio State University Extension HYG-5346, cider vinegar at home', status: 'seen in part' },
  S83: { title: 'USDA AIB 539 ’Suitable containers, covers and weights’', status: 'seen' },
  S84: { title: 'Supplier note: do not make vinegar where wine is made', status: 'seen' },
  S85: { title: 'Cider-maker blog: no vinegar making near the cider', status: 'seen' },
  S86: { title: 'Poison-centre quotes on bleach + vinegar', status: 'seen (secondary)' },
  S87: { title: 'General chemistry pages on bleach + acid', status: 'seen (secondary)' },
  S88: { title: 'School risk assessment for NaOH titration', status: 'seen (secondary)' },
  S89: { title: 'Ask Extension 547866: mould on a vinegar mother', status: 'seen' },
  S90: { title: 'USDA FSIS, Molds on Food', status: 'seen in part' },
  S91: { title: 'Kombucha mould identification pages', status: 'seen' },
  S92: { title: 'CFIA, Mother of vinegar', status: 'seen' },
  S93: { title: 'Ask Extension 607628: layer on cider vinegar', status: 'seen' },
  S94: { title: 'Ferment pages on film yeast versus mould', status: 'seen' },
  S95: { title: 'Kombucha maker page: one fly, scrap it; cheesecloth too open', status: 'seen' },
  S96: { title: 'Opposite view: culture can be recovered', status: 'seen' },
  S97: { title: 'Troubleshooting table: solvent smell is fixable with air', status: 'seen (secondary)' },
  S98: { title: 'Recipe post: nail-polish aroma means start over', status: 'seen (secondary)' },
  S99: { title: 'Vegetable-ferment forum pages', status: 'seen' },
  S100: {
    title: 'Reposted extension text: vinegar at least 140 °F, not above 160 °F',
    status: 'seen in part',
  },
  S101: { title: 'Supplier and book pages: 150 °F for 30 min; keep mother back', status: 'seen' },
  POLICY: { title: 'Undercroft’s own cautious choice', status: 'policy' },
  COMMON: { title: 'Common practice, no source', status: 'common practice' },
  CHEM: { title: 'Stoichiometry and molar masses, IUPAC 2021 atomic weights', status: 'seen' },
  EU1308: { title: 'Regulation (EU) 1308/2013, Annex VII Part II (17), wine vinegar', status: 'memory' },
  CODEX162: { title: 'Codex Stan 162-1987, numeric limits', status: 'memory' },
  CAB19: { title: 'Canada, Food and Drug Regulations B.19.001', status: 'memory' },
  FSANZ: { title: 'Food Standards Australia New Zealand, Standard 2.10.1', status: 'memory' },
  USDA2015: { title: 'USDA Complete Guide to Home Canning (2015)', status: 'memory' },
  NUMMER: { title: 'Nummer 2013, J. Environ. Health 76(4), kombucha in food service', status: 'memory' },
  BCCDC: { title: 'BC Centre for Disease Control, kombucha note (2015, 2020)', status: 'memory' },
  CDCHONEY: { title: 'US CDC on honey and infant botulism', status: 'memory' },
  NIOSHPG: { title: 'NIOSH Pocket Guide, carbon dioxide', status: 'memory' },
  CPG545: { title: 'FDA CPG 545.450, lead leached from pottery', status: 'memory' },
  CFR24: { title: '27 CFR 24.75 and 25.205, home wine and beer', status: 'memory' },
  BOTTLE: { title: 'Ratings of sparkling-wine bottles', status: 'memory' },
  FLAME: { title: 'Flame tests do not show a safe cellar', status: 'memory' },
} as const satisfies Readonly<Record<string, Source>>;

export type SourceId = keyof typeof SOURCES;
