import { daysIn, hoursIn, lacking, numberIn, type FamilyWords } from './sentence.ts';

/** Why a look that is on record no longer counts, to stand after what it was a look for. */
const TOO_OLD = 'a week is the most while it works or stands open, half a year once it is closed up';

/** Mould, films, flies and smells. */
export const GROWTH_WORDS: FamilyWords = {
  'MLD-01': {
    about: 'mould',
    says: {
      met: 'Rule MLD-01: at the last look nothing fuzzy, dry or coloured was growing.',
      missing: lacking(
        {
          'inspection.growth': 'Somebody looked, but what grows on it, if anything, is not settled.',
        },
        'Nobody has looked for mould yet.',
      ),
      stale_age: (n) => `The last look for mould was ${sinceLooked(n['ageMs'])} ago: ${TOO_OLD}.`,
      category:
        'Mould grows on it: fuzzy, dry or coloured. Throw out all of it, the culture and wooden parts too. Skimming, a low pH or strong acid do not mend it.',
    },
  },
  'MLD-02': {
    about: 'films and discs on the surface',
    says: {
      met: 'Rule MLD-02: the smooth disc is the mother’s own, wet and without fuzz or colour.',
      missing: lacking(
        {
          'ferment.startedAtMs':
            'A film lies on the brine, and when the salt went in is not on record, so whether it soured in time is not known.',
          pH: (n) =>
            `A film lies on the brine on day ${String(numberIn(n, 'days') ?? 'unknown')}, and no pH shows that it has soured beneath.`,
        },
        'A film or disc lies on it, and nobody has looked at it yet.',
      ),
      stale_age: (n) => `The last look at the film or disc was ${sinceLooked(n['ageMs'])} ago: ${TOO_OLD}.`,
      condition:
        'A flat, wet film or disc lies on it, most likely yeast or a mother. Skim it, keep what is below under the surface, and use it soon.',
      deadline: (n) =>
        `A film lies on the brine after ${daysIn(n)}, and its pH is not shown to be under 4.6. Throw the jar out.`,
    },
  },
  'MLD-03': {
    about: 'a growth that cannot be told',
    says: {
      missing: 'Something grows that you cannot tell, and when it was first seen is not on record.',
      not_yet: (n) =>
        `Something has grown for ${hoursIn(n)} that you cannot tell. Wait until 48 hours have passed, taste nothing and share nothing.`,
      deadline: (n) =>
        `After ${hoursIn(n)} you still cannot tell what grows there, and 48 are the limit. It counts as mould: throw all of it out.`,
    },
  },
  'FLY-01': {
    about: 'fruit flies',
    says: {
      met: 'Rule FLY-01: no flies, and the cover keeps them out.',
      missing: lacking(
        {
          'inspection.flies': 'Whether there are flies at it or in it is not on record.',
          'inspection.cover': 'There are flies in it, and what covers it is not on record.',
        },
        'Nobody has looked for flies and maggots yet.',
      ),
      stale_age: (n) => `The last look for flies was ${sinceLooked(n['ageMs'])} ago: ${TOO_OLD}.`,
      condition:
        'There are flies about, or the cover is too open or not on record. Tie a tight cloth or a coffee filter over it; cheesecloth lets them in.',
      category: 'There are maggots in it, or flies came in under cheesecloth. Throw it out, the culture too.',
    },
  },
  'ETH-01': {
    about: 'a smell of varnish',
    says: {
      met: 'Rule ETH-01: it does not smell of varnish.',
      missing: lacking(
        {
          'inspection.smell': 'Somebody looked, but whether it smells of varnish is not on record.',
          'inspection.solventSinceMs': 'It smells strongly of varnish, and since when is not on record.',
        },
        'Nobody has smelled for varnish yet.',
      ),
      stale_age: (n) => `It was last smelled for varnish ${sinceLooked(n['ageMs'])} ago: ${TOO_OLD}.`,
      condition:
        'It smells faintly of varnish, a sign of too little air or too much warmth. Give it air and surface, and smell again in 2 weeks.',
      not_yet: (n) =>
        `It has smelled strongly of varnish for ${daysIn(n)}. Give it air and do not use it; if the smell is there after 28 days, it stays out of use.`,
      deadline: (n) =>
        `It has smelled strongly of varnish for ${daysIn(n)}, and air has not mended it in 28. Neither use nor give it.`,
    },
  },
  'OFF-01': {
    about: 'a rotten smell',
    says: {
      met: 'Rule OFF-01: it does not smell of rot, cheese or bad eggs.',
      missing: lacking(
        { 'inspection.smell': 'Somebody looked, but whether it smells of rot is not on record.' },
        'Nobody has smelled for rot yet.',
      ),
      stale_age: (n) => `It was last smelled for rot ${sinceLooked(n['ageMs'])} ago: ${TOO_OLD}.`,
      condition: 'It smells of bad eggs, as a drink on its lees can. Rack it with air, and smell again.',
      category: 'It smells of rot, cheese or bad eggs. Throw it out untasted.',
    },
  },
};

function sinceLooked(ageMs: number | string | null | undefined): string {
  return daysIn({ days: typeof ageMs === 'number' ? ageMs / 86_400_000 : null });
}
