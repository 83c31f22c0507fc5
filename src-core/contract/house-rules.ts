import { oc } from '@orpc/contract';
import { z } from 'zod';

/** What the keeper settles once: measures, dates, theme. Kept inside the cellar file, so it travels with it. */
export const HouseRules = z.strictObject({
  volume: z.enum(['metric', 'us']),
  temperature: z.enum(['C', 'F']),
  gravity: z.enum(['SG', 'Bx']),
  dates: z.enum(['iso', 'long']),
  theme: z.enum(['system', 'light', 'dark']),
  /** Whether single letters (R, N, G…) act on the shelf and the leaf (WCAG 2.1.4 asks that they can be switched off). */
  singleKeys: z.boolean(),
  pantry: z.boolean(),
  /** The temperature the keeper's hydrometer is marked for. */
  hydrometerCalibrationCelsius: z.number().min(0).max(40),
  /** Whose naming rules apply to vinegar; null means not chosen, and the strictest row is used. */
  jurisdiction: z.enum(['us', 'eu', 'uk', 'ca', 'de', 'fr', 'anz']).nullable(),
  /** The word or sign costs are told in; empty when none is chosen. */
  currency: z
    .string()
    .trim()
    .max(12)
    .regex(/^[\p{L}\p{Sc}. ]*$/u),
});
export type HouseRules = z.infer<typeof HouseRules>;

export const HOUSE_RULES_AT_FIRST: HouseRules = {
  volume: 'metric',
  temperature: 'C',
  gravity: 'SG',
  dates: 'iso',
  theme: 'system',
  singleKeys: true,
  pantry: false,
  hydrometerCalibrationCelsius: 20,
  jurisdiction: null,
  currency: '',
};

export const houseRulesContract = {
  read: oc.output(HouseRules),
  settle: oc.input(HouseRules).output(HouseRules),
};
