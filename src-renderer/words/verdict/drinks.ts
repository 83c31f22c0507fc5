import { band, lacking, NBSP, numberIn, recipientIn, type FamilyWords, type Numbers } from './sentence.ts';
import { withheld } from './withheld.ts';

const MG = `${NBSP}mg/L`;
const sulfite = (n: Numbers): string =>
  `total sulfite was ${band(n, { side: 'upper', decimals: 0, unit: 'mg/L' })}`;
const isUnder = (n: Numbers): boolean =>
  (numberIn(n, 'value') ?? Infinity) + (numberIn(n, 'uncertainty') ?? Infinity) < 10;
const isMeasured = (n: Numbers): boolean => numberIn(n, 'value') !== null;

/** Sulfite, methanol, concentrating, and honey. */
export const DRINK_WORDS: FamilyWords = {
  'WIN-01': {
    about: 'sulfite on the label',
    says: {
      ...withheld('sulfite', `It is not shown to hold under 10${MG} of sulfite`),
      met: (n) => `Rule WIN-01: ${sulfite(n)}, under 10${MG}, and none was added.`,
      print_on_label: (n) =>
        isMeasured(n)
          ? isUnder(n)
            ? `${sulfite(n)}, but sulfite went in or may have. The label names it.`
            : `${sulfite(n)}, not shown to be under 10${MG}. The label names it.`
          : `No sulfite was measured, and yeast makes some of its own. Until it is shown to be under 10${MG} the label names it.`,
      category: (n) =>
        isMeasured(n)
          ? `It is called sulfite-free, but ${sulfite(n)}${isUnder(n) ? ' and sulfite went in or may have' : `, not under 10${MG}`}. Take that word off the label.`
          : 'It is called sulfite-free, and no sulfite was measured. Take that word off the label.',
    },
  },
  'WIN-02': {
    about: 'handling sulfite powder',
    says: {
      met: 'Rule WIN-02: the room is aired, gloves are on, and nobody with asthma is near.',
      missing: lacking(
        {
          'sulfiteHandling.asthmaPresent': 'Whether anyone near the powder has asthma is not on record.',
          'sulfiteHandling.intoHotOrStrongAcid':
            'Whether the sulfite goes into something hot or strongly sour is not on record.',
          'sulfiteHandling.ventilated': 'Whether the room where you weigh sulfite is aired is not on record.',
          'sulfiteHandling.gloves': 'Whether you wear gloves for the sulfite is not on record.',
        },
        'How the sulfite is handled is not on record.',
      ),
      condition:
        'The room is not aired or your hands are bare. Open a window, put gloves on, and keep your face from the powder.',
      category:
        'Someone with asthma is near, or the sulfite goes into something hot or strongly sour. The gas it gives off can close an airway: stop.',
    },
  },
  'WIN-03': {
    about: 'methanol in fermented fruit',
    says: {
      met: 'Rule WIN-03: it was only fermented, so the little methanol in it stays at the level of wine.',
      missing: 'Whether the drink was concentrated after it fermented is not on record.',
      condition:
        'Pectic enzyme on pomace makes somewhat more methanol, and here it was used or may have been. Fermented and no more, it stays at the level of wine.',
      category: 'It was concentrated, and so was its methanol. Nobody drinks this.',
    },
  },
  'WIN-04': {
    about: 'distilling and freezing out alcohol',
    says: {
      category:
        'Distilling or freezing out alcohol at home is dangerous, and against the law in most places. Undercroft gives no help with it.',
    },
  },
  'HON-01': {
    about: 'honey and infants',
    says: {
      met: 'Rule HON-01: there is honey in it, and it is not for an infant.',
      missing: 'It is meant for an infant, and whether there is honey in it is not on record.',
      print_on_label:
        'There is honey in it, and who will have it is not on record. The label says that no child under 12 months may.',
      category: (n) =>
        `There is honey in it and it is meant for ${recipientIn(n)}. No child under 12 months has honey, raw, heated or fermented.`,
    },
  },
};
