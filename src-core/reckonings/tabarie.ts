import { ok } from '../base/result.ts';
import { dealcoholisedGravity, totalDryExtract } from '../must/attenuation.ts';
import { trueGravityFromApparent } from '../quantities/gravity.ts';
import { invertMonotone } from '../quantities/polynomial.ts';
import { propagate } from '../quantities/propagate.ts';
import { waterDensityBettin } from '../quantities/water-density.ts';
import { answer, step } from './answer.ts';
import { asked, defineReckoning, impossible } from './define-reckoning.ts';
import { choice, needed, uncertaintyOf, when } from './fields.ts';
import { figure, gravityFigure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';

const SOURCE = 'Tabarié’s relation, OIV-MA-AS2-03B:R2012';
/** % vol up to which the strength of a boiled-off residue is looked for. */
const STRONGEST = 24;

/**
 * Extract from gravity and alcohol; or alcohol from the gravity before and after it was boiled off and made up again with water.
 */
export const tabarie = defineReckoning({
  id: 'tabarie',
  group: 'strength',
  fields: [
    choice('lookFor', ['extract', 'alcohol']),
    needed('gravity', 'gravity', 'gravity', { high: 1.2 }),
    when('lookFor', ['extract'], needed('alcoholPercentVol', 'alcohol', 'alcohol', { high: STRONGEST })),
    when('lookFor', ['alcohol'], needed('residueGravity', 'gravity', null, { high: 1.2 })),
    choice('measuredBy', ['hydrometer', 'hydrometerNarrow']),
    uncertaintyOf('gravity', { unit: 'SG', high: 0.02 }),
    uncertaintyOf('alcohol', { unit: '% vol', high: 5 }),
  ],
  says: {
    answers: ['extractGramsPerLitre', 'residueGravity', 'alcohol'],
    steps: ['densityOfWine', 'residueGravity', 'extractOfResidue', 'alcoholOfSpirit'],
    cautions: ['volatileAcidCounts', 'worksOutNotMeasured', 'errorTakenFromMethod'],
    reasons: ['noExtractLeft', 'residueTooLight'],
  },
  standsFor: { densityGramsPerMl: 'gravity', trueGravity: 'gravity' },
  reckon(values) {
    const gravity = measured(values.gravity, values.measuredBy, values.gravityUncertainty);
    const densityStep = step(
      'densityOfWine',
      `${gravityFigure(values.gravity)} × ρ(water, 20 °C), weighed in air`,
      densityOf(values.gravity),
      'g/mL',
      'definition of SG 20/20',
    );
    const cautions = ['worksOutNotMeasured', 'volatileAcidCounts'] as const;
    if (values.lookFor === 'alcohol') {
      const residueGravity = asked(values.residueGravity);
      const residue = measured(residueGravity, values.measuredBy, values.gravityUncertainty);
      const numbers = { gravity: values.gravity, residue: residueGravity };
      if (strengthBetween(values.gravity, residueGravity) === null)
        return impossible('residueTooLight', numbers);
      const strength = propagate(
        (part: Readonly<Record<'gravity' | 'residue', number>>) => {
          const found = strengthBetween(part.gravity, part.residue);
          return found === null ? impossible('residueTooLight', numbers) : ok(found);
        },
        { gravity, residue },
      );
      if (!strength.ok) return strength;
      return ok({
        answers: [answer('alcohol', strength.value, 'alcohol')],
        steps: [
          densityStep,
          step(
            'alcoholOfSpirit',
            `ρ(spirit) = ρ(wine) − (${gravityFigure(residueGravity)} − 1) ÷ 1.0018, by OIML R 22`,
            strength.value.value,
            '% vol',
            SOURCE,
          ),
        ],
        cautions: [...cautions, ...errorCaution(gravity, residue)],
      });
    }
    const alcoholPercentVol = asked(values.alcoholPercentVol);
    const alcohol = measured(alcoholPercentVol, 'alcoholFromGravities', values.alcoholUncertainty);
    const residue = dealcoholisedGravity({
      densityGramsPerMl: densityOf(values.gravity),
      alcoholPercentVol,
    });
    if (!residue.ok) return residue;
    if (residue.value < 1)
      return impossible('noExtractLeft', { gravity: values.gravity, alcohol: alcoholPercentVol });
    const both = propagateEach(
      ['residue', 'extract'],
      (part: Readonly<Record<'gravity' | 'alcohol', number>>) => {
        const wine = { densityGramsPerMl: densityOf(part.gravity), alcoholPercentVol: part.alcohol };
        const freed = dealcoholisedGravity(wine);
        if (!freed.ok) return freed;
        const extract = totalDryExtract(wine);
        return extract.ok ? ok({ residue: freed.value, extract: extract.value }) : extract;
      },
      { gravity, alcohol },
    );
    if (!both.ok) return both;
    return ok({
      answers: [
        answer('extractGramsPerLitre', both.value.extract, 'g/L'),
        answer('residueGravity', both.value.residue, 'gravity'),
      ],
      steps: [
        densityStep,
        step(
          'residueGravity',
          `1.0018 × (${figure(densityOf(values.gravity))} − ρ(${figure(alcoholPercentVol)} % vol)) + 1`,
          residue.value,
          'SG',
          SOURCE,
        ),
        step(
          'extractOfResidue',
          `grams of sucrose in a litre at ${gravityFigure(residue.value)}`,
          both.value.extract.value,
          'g/L',
          'OIV-MA-AS2-03B over ICUMSA SPS-4',
        ),
      ],
      cautions: [...cautions, ...errorCaution(gravity, alcohol)],
    });
  },
});

/** g/mL at 20 °C of a liquid of this apparent SG. */
function densityOf(gravity: number): number {
  return (trueGravityFromApparent(gravity) * waterDensityBettin(20)) / 1000;
}

/** % vol at which Tabarié's relation joins the two gravities; null when none does. */
function strengthBetween(gravity: number, residueGravity: number): number | null {
  return invertMonotone(
    (alcoholPercentVol) => {
      const freed = dealcoholisedGravity({ densityGramsPerMl: densityOf(gravity), alcoholPercentVol });
      return freed.ok ? freed.value : Number.NaN;
    },
    trueGravityFromApparent(residueGravity),
    0,
    STRONGEST,
  );
}
