import { lacking, type FamilyWords, type Numbers } from './sentence.ts';

const MATERIALS: Readonly<Record<string, string>> = {
  glass: 'glass',
  stainless: 'stainless steel',
  plastic: 'plastic',
  wood: 'wood',
  glazedCeramic: 'glazed ware',
  crystal: 'crystal',
  enamel: 'enamel',
  copper: 'copper',
  brass: 'brass',
  iron: 'iron',
  aluminium: 'aluminium',
  galvanised: 'galvanised metal',
};
const material = (n: Numbers): string => MATERIALS[String(n['material'])] ?? 'this metal';

/** What acid may stand in. */
export const MATERIAL_WORDS: FamilyWords = {
  'MAT-01': {
    about: 'lead in glazes and crystal',
    says: {
      met: 'Rule MAT-01: its maker or a leach test clears the glaze of lead, and it has no chip.',
      missing: lacking(
        {
          'vessel.material': 'What the vessel is made of is not on record, so it may be glazed with lead.',
          'vessel.damage': 'Whether the glaze is chipped or crazed is not on record.',
        },
        'Whether a glaze or crystal here holds lead is not on record.',
      ),
      condition:
        'A swab found no lead and the glaze is whole. A swab is coarse, so acid may touch this vessel for a short time only, and nothing ferments in it.',
      category:
        'A glaze that showed lead, is decorative or old, or is chipped gives its lead to acid. Use glass.',
    },
  },
  'MAT-02': {
    about: 'metal that acid touches',
    says: {
      met: (n) => `Rule MAT-02: ${material(n)} is not among the metals that acid dissolves.`,
      missing: 'What the vessel is made of is not on record, and acid dissolves some metals.',
      condition: (n) =>
        `A tool of ${material(n)} may touch acid for less than 10 minutes. Rinse it, and store nothing in it.`,
      category: (n) =>
        `Acid dissolves ${material(n)}, and what comes off can poison. Neither ferment nor store in it.`,
    },
  },
  'MAT-03': {
    about: 'plastic in contact with food',
    says: {
      met: 'Rule MAT-03: the plastic is food-grade, without scratches, and held no chemicals.',
      missing: lacking(
        {
          'vessel.material':
            'What the vessel is made of is not on record, so it may be plastic not meant for food.',
          'vessel.foodGrade': 'Whether the plastic bears the mark for food is not on record.',
          'vessel.heldChemicals': 'Whether the plastic ever held chemicals is not on record.',
        },
        'Whether the plastic is fit for food is not on record.',
      ),
      condition:
        'The plastic is food-grade, but scratched or not shown to be whole. Press fruit in it; do not store in it.',
      category:
        'The plastic is not for food, or once held chemicals. Bin liners count as that too: use another vessel.',
    },
  },
  'MAT-04': {
    about: 'chips and cracks',
    says: {
      met: 'Rule MAT-04: looked over, and no chip or crack was found.',
      missing: 'Whether the vessel has a chip or a crack is not on record.',
      category:
        'It is chipped or cracked. Nothing stands in it any more, least of all under pressure or heat.',
    },
  },
  'MAT-05': {
    about: 'light on the vessel',
    says: {
      met: 'Rule MAT-05: it stands in the dark.',
      condition:
        'It is not shown to stand in the dark. Light fades the colour and tires the culture; it does no other harm.',
    },
  },
  'MAT-06': {
    about: 'what the vessel held before',
    says: {
      met: 'Rule MAT-06: it held no vinegar, or is glass or steel that was cleaned.',
      missing: lacking(
        {
          product: 'What the vessel is for is not on record, and vinegar once in it would turn a wine sour.',
        },
        'Whether the vessel held vinegar before is not on record.',
      ),
      condition:
        'It held vinegar, and plastic or rubber keeps some of its germs. A drink in it may turn sour.',
      category:
        'It is wood that held vinegar. No cleaning gets all of its germs out, and the drink turns sour.',
    },
  },
};
