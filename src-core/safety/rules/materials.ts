import { forProducts } from '../ask.ts';
import type { VesselMaterial } from '../facts-of-uses.ts';
import {
  cautionBecause,
  defineRule,
  doNotBecause,
  okBecause,
  unknownBecause,
  type Answer,
  type Rule,
  type RuleContext,
} from '../rule.ts';

/** Minutes that a tool of copper, brass or aluminium may touch acid. Source: rule MAT-02 after S81. */
const TOOL_MINUTES = 10;

const GLAZED: ReadonlySet<VesselMaterial> = new Set(['glazedCeramic', 'crystal']);
const TOOL_METALS: ReadonlySet<VesselMaterial> = new Set(['copper', 'brass', 'aluminium']);
const NEVER_METALS: ReadonlySet<VesselMaterial> = new Set(['galvanised', 'iron']);

const ofMaterial =
  (...materials: readonly VesselMaterial[]) =>
  ({ facts }: RuleContext): 'yes' | 'no' | 'unknown' => {
    const material = facts.vessel?.material ?? null;
    return material === null ? 'unknown' : materials.includes(material) ? 'yes' : 'no';
  };

/** Rules MAT-01 to MAT-06: what acid may stand in. */
export const MATERIAL_RULES: readonly Rule[] = [
  defineRule({
    id: 'MAT-01',
    uses: ['useVessel'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S77', 'S78', 'S79', 'CPG545'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: false,
    appliesBy: 'vessel.material',
    applies: ofMaterial(...GLAZED),
    check: glaze,
  }),
  defineRule({
    id: 'MAT-02',
    uses: ['useVessel'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S80', 'S81', 'S82'],
    evidence: ['seen'],
    mayBeOverruled: false,
    check: metal,
  }),
  defineRule({
    id: 'MAT-03',
    uses: ['useVessel'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S36', 'S83'],
    evidence: ['seen'],
    appliesBy: 'vessel.material',
    applies: ofMaterial('plastic'),
    check: ({ facts }) => {
      const { foodGrade, heldChemicals, scratched } = facts.vessel ?? {};
      if (foodGrade === false || heldChemicals === true) return doNotBecause('category');
      if ((foodGrade ?? null) === null) return unknownBecause('missing', 'vessel.foodGrade');
      if ((heldChemicals ?? null) === null) return unknownBecause('missing', 'vessel.heldChemicals');
      return scratched === false ? okBecause({}) : cautionBecause('condition');
    },
  }),
  defineRule({
    id: 'MAT-04',
    uses: ['useVessel', 'sealInBottle', 'heatBottles'],
    reasons: ['met', 'missing', 'category'],
    sourceIds: ['S78', 'COMMON'],
    evidence: ['seen', 'common practice'],
    check: ({ facts }) => {
      const damage = facts.vessel?.damage ?? null;
      if (damage === null) return unknownBecause('missing', 'vessel.damage');
      return damage === 'sound' ? okBecause({}) : doNotBecause('category');
    },
  }),
  defineRule({
    id: 'MAT-05',
    uses: ['useVessel'],
    reasons: ['met', 'condition'],
    sourceIds: ['COMMON', 'S82'],
    evidence: ['common practice'],
    // Light is a matter of quality alone.
    check: ({ facts }) => (facts.vessel?.light === 'dark' ? okBecause({}) : cautionBecause('condition')),
  }),
  defineRule({
    id: 'MAT-06',
    uses: ['useVessel'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S84', 'S85'],
    evidence: ['seen'],
    appliesBy: 'product',
    applies: (context) => {
      const { product, vessel } = context.facts;
      // What is not known may be a wine, which only a vessel that never held vinegar takes.
      if ((product ?? null) === null && vessel?.heldVinegarBefore !== false) return 'unknown';
      return forProducts('wine', 'cider', 'mead')(context);
    },
    check: ({ facts }) => {
      const { heldVinegarBefore, material } = facts.vessel ?? {};
      if ((heldVinegarBefore ?? null) === null) return unknownBecause('missing', 'vessel.heldVinegarBefore');
      if (heldVinegarBefore === false) return okBecause({});
      if (material === 'wood') return doNotBecause('category');
      return material === 'glass' || material === 'stainless' ? okBecause({}) : cautionBecause('condition');
    },
  }),
];

function glaze({ facts }: RuleContext): Answer {
  const { glaze: known, damage } = facts.vessel ?? {};
  if (known === 'swabPositive' || known === 'decorative' || damage === 'chippedOrCracked') {
    return doNotBecause('category');
  }
  if ((known ?? null) === null) return unknownBecause('missing', 'vessel.glaze');
  if ((damage ?? null) === null) return unknownBecause('missing', 'vessel.damage');
  return known === 'swabNegative' ? cautionBecause('condition') : okBecause({});
}

function metal({ facts }: RuleContext): Answer {
  const { material, contactMinutes } = facts.vessel ?? {};
  if (material === null || material === undefined) return unknownBecause('missing', 'vessel.material');
  if (NEVER_METALS.has(material)) return doNotBecause('category', { material });
  if (!TOOL_METALS.has(material)) return okBecause({ material });
  const brief = typeof contactMinutes === 'number' && contactMinutes >= 0 && contactMinutes < TOOL_MINUTES;
  return brief ? cautionBecause('condition', { material }) : doNotBecause('category', { material });
}
