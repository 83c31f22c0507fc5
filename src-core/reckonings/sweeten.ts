import { ok, type Result } from '../base/result.ts';
import { fermentableSugar, type SugarSource } from '../must/must-sugar.ts';
import { SUGAR_PER_PERCENT_PLAN } from '../must/potential-alcohol.ts';
import { sweetenToAlcohol, sweetenToBrix, SWEETENERS, type SweetenerName } from '../must/sugar-addition.ts';
import { brixToGravity, gravityToBrix } from '../quantities/gravity.ts';
import type { OutOfRange } from '../quantities/validity.ts';
import { answer, step, UG_PER_GRAM, UL_PER_LITRE } from './answer.ts';
import { cautionIf } from './cautions.ts';
import { asked, impossible } from './define-reckoning.ts';
import { choice, needed, uncertaintyOf, when } from './fields.ts';
import { figure, gravityFigure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';
import { FRUITS } from './potential-alcohol.ts';
import type { ReckoningError } from './reckoning.ts';

/** The fields of both ways of sweetening a must, apart from what goes in. `fruit` is what the must most often is. */
export function sweetenFields(fruit: (typeof FRUITS)[number]) {
  return [
    needed('volumeUl', 'volume', 'volumeUl', { low: 10_000 }),
    needed('gravity', 'gravity', 'gravity', { high: 1.2 }),
    choice('aimFor', ['gravity', 'alcohol']),
    when('aimFor', ['gravity'], needed('targetGravity', 'gravity', null, { low: 1, high: 1.2 })),
    when('aimFor', ['alcohol'], needed('targetPercentVol', 'alcohol', null, { low: 1, high: 18 })),
    when('aimFor', ['alcohol'], choice('fruit', FRUITS, fruit)),
    uncertaintyOf('gravity', { unit: 'SG', high: 0.02 }),
    uncertaintyOf('volume', { unit: 'L', high: 10_000 }),
  ] as const;
}

export const SWEETEN_STANDS_FOR = {
  specificGravity: 'gravity',
  sucroseMassPercent: 'gravity',
  brix: 'gravity',
  fermentableGramsPerLitre: 'gravity',
  volumeLitres: 'volumeUl',
  targetBrix: 'targetGravity',
} as const;

/** What both can answer, caution and refuse. */
export const SWEETEN_SAYS = {
  answers: ['sweetener', 'volumeAfter', 'gravityAfter'],
  steps: [
    'gravityToBrix',
    'targetBrix',
    'fermentableSugar',
    'sugarToBrix',
    'sugarToAlcohol',
    'sweetenedVolume',
  ],
  cautions: [
    'plansAreRanges',
    'brixIsNotSugar',
    'addSugarInParts',
    'honeyNotForInfants',
    'worksOutNotMeasured',
    'errorTakenFromMethod',
  ],
  reasons: ['noSugarBelowWater', 'alreadySweeter', 'alreadyStrongEnough'],
} as const;

interface Aim {
  readonly volumeUl: number;
  readonly gravity: number;
  readonly aimFor: 'gravity' | 'alcohol';
  readonly targetGravity: number | null;
  readonly targetPercentVol: number | null;
  readonly fruit: SugarSource;
  readonly gravityUncertainty: number | null;
  readonly volumeUncertainty: number | null;
  readonly sweetener: SweetenerName;
}

/** °Brix from which a must tires yeast, so that sugar goes in by parts. Common practice, no source. */
const HEAVY_BRIX = 24;

/**
 * How far a honey may lie from the table: 15 to 20 % of water where USDA SR Legacy 19296 has 17.1, and the Codex Standard for
 * Honey (12-1981) allows 20. Policy.
 */
const HONEY_RELATIVE_UNCERTAINTY = 0.04;

/** Grams of a sweetener for a target, with the volume and gravity that follow, and all uncertainties. */
export function sweeten(aim: Aim) {
  const { gravity: from, aimFor, sweetener } = aim;
  if (from < 1) return impossible('noSugarBelowWater', { gravity: from });
  if (aimFor === 'gravity' && asked(aim.targetGravity) < from) {
    return impossible('alreadySweeter', { gravity: from, target: asked(aim.targetGravity) });
  }
  const volumeLitres = aim.volumeUl / UL_PER_LITRE;
  const gravity = measured(from, 'hydrometer', aim.gravityUncertainty);
  const volume = measured(volumeLitres, 'jugOrMark', aim.volumeUncertainty);
  const here = addition({ ...aim, volumeLitres, gravity: from });
  if (!here.ok) {
    const { error } = here;
    if (error.type !== 'OutOfRange' || error.quantity !== 'targetPercentVol') return here;
    // Fifty °Bx hold more than any target of the form, so it can only be too little.
    return impossible('alreadyStrongEnough', { alcohol: error.low, target: error.value });
  }
  const all = propagateEach(
    ['grams', 'litres', 'gravityAfter'],
    (part: Readonly<Record<'volume' | 'gravity', number>>) =>
      addition({ ...aim, volumeLitres: part.volume, gravity: part.gravity }),
    { volume, gravity },
  );
  if (!all.ok) return all;
  const { brix, brixAfter, fermentable } = here.value;
  const { litres, gravityAfter } = all.value;
  const strays = sweetener === 'honey' ? HONEY_RELATIVE_UNCERTAINTY * all.value.grams.value : 0;
  const grams = {
    value: all.value.grams.value,
    uncertainty: Math.hypot(all.value.grams.uncertainty, strays),
  };
  const solids = SWEETENERS[sweetener];
  const brixStep = step(
    'gravityToBrix',
    `Bx at which ρ(Bx) gives ${gravityFigure(from)}`,
    brix,
    '°Bx',
    'ICUMSA SPS-4',
  );
  return ok({
    answers: [
      answer('sweetener', grams, 'mass', { times: UG_PER_GRAM }),
      answer('volumeAfter', litres, 'volume', { times: UL_PER_LITRE }),
      answer('gravityAfter', gravityAfter, 'gravity'),
    ],
    steps: [
      brixStep,
      ...(aimFor === 'gravity'
        ? [
            step(
              'targetBrix',
              `Bx at which ρ(Bx) gives ${gravityFigure(asked(aim.targetGravity))}`,
              brixAfter,
              '°Bx',
              'ICUMSA SPS-4',
            ),
            step(
              'sugarToBrix',
              `${figure(volumeLitres)} L × ρ(${figure(brix)} °Bx) × (${figure(brixAfter)} − ${figure(brix)}) ÷ (${figure(solids.solidsMassPercent)} − ${figure(brixAfter)})`,
              grams.value,
              'g',
              `mass balance; ${solids.source}`,
            ),
          ]
        : [
            step(
              'fermentableSugar',
              `of ${figure(brix)} °Bx in ${figure(volumeLitres)} L`,
              fermentable,
              'g/L',
              'fermentable share of the fruit',
            ),
            step(
              'sugarToAlcohol',
              `(${figure(volumeLitres)} L × ${figure(fermentable)} + grams × ${figure(solids.hexosePerGram)}) ÷ litres after ÷ ${SUGAR_PER_PERCENT_PLAN} = ${figure(asked(aim.targetPercentVol))}`,
              grams.value,
              'g',
              `convention of the EU and the OIV; ${solids.source}`,
            ),
          ]),
      step(
        'sweetenedVolume',
        `(juice + ${figure(grams.value)} g) ÷ ρ(${figure(brixAfter)} °Bx)`,
        litres.value,
        'L',
        'ICUMSA SPS-4',
      ),
    ],
    cautions: [
      ...cautionIf(aimFor === 'alcohol', 'plansAreRanges'),
      ...cautionIf(aimFor === 'alcohol', 'brixIsNotSugar'),
      ...cautionIf(brixAfter > HEAVY_BRIX, 'addSugarInParts'),
      ...cautionIf(sweetener === 'honey', 'honeyNotForInfants'),
      'worksOutNotMeasured' as const,
      ...errorCaution(gravity, volume),
    ],
  });
}

function addition(
  given: Omit<Aim, 'volumeUl'> & { readonly volumeLitres: number },
): Result<
  Readonly<Record<'grams' | 'litres' | 'gravityAfter' | 'brix' | 'brixAfter' | 'fermentable', number>>,
  ReckoningError | OutOfRange
> {
  const { volumeLitres, sweetener, fruit } = given;
  const brix = gravityToBrix(given.gravity);
  if (!brix.ok) return brix;
  const sugar = fermentableSugar({ brix: brix.value, of: fruit });
  if (!sugar.ok) return sugar;
  const fermentable = sugar.value.midGramsPerLitre;
  const added =
    given.aimFor === 'gravity'
      ? toGravity(volumeLitres, brix.value, asked(given.targetGravity), sweetener)
      : sweetenToAlcohol({
          volumeLitres,
          brix: brix.value,
          fermentableGramsPerLitre: fermentable,
          targetPercentVol: asked(given.targetPercentVol),
          sweetener,
        });
  if (!added.ok) return added;
  const after = brixToGravity(added.value.brixAfter);
  if (!after.ok) return after;
  return ok({
    grams: added.value.grams,
    litres: added.value.volumeLitres,
    gravityAfter: after.value,
    brix: brix.value,
    brixAfter: added.value.brixAfter,
    fermentable,
  });
}

function toGravity(volumeLitres: number, brix: number, targetGravity: number, sweetener: SweetenerName) {
  const target = gravityToBrix(targetGravity);
  return target.ok ? sweetenToBrix({ volumeLitres, brix, targetBrix: target.value, sweetener }) : target;
}
