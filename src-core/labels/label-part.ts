import { z } from 'zod';

/** All that can stand on a label, what matters most first. When room is short it is left off from the end. */
export const LABEL_PARTS = [
  ...(['name', 'caution', 'what', 'started', 'batchStarted', 'stages', 'strength', 'ph', 'culture'] as const),
  ...(['id', 'code', 'bottled', 'alcohol', 'ingredients', 'allergens', 'from', 'bestKept'] as const),
  ...(['freeLine', 'blankLines'] as const),
] as const;
export const LabelPart = z.enum(LABEL_PARTS);
export type LabelPart = z.infer<typeof LabelPart>;

/** What always prints: a label on which one of these has no room is refused. */
export const ALWAYS_PRINTED = ['name', 'caution', 'started', 'id'] as const satisfies readonly LabelPart[];

/** What the desk has to say of a label beside what it shows. Nothing is ever left off, cut or missing without one of these. */
export const LabelNote = z.discriminatedUnion('type', [
  /** These had no room. */
  z.object({ type: z.literal('leftOff'), parts: z.array(LabelPart) }),
  /** A text that was cut with … at its end. */
  z.object({ type: z.literal('cut'), part: LabelPart }),
  z.object({ type: z.literal('narrowed'), part: LabelPart }),
  z.object({ type: z.literal('madeSmaller'), part: LabelPart, sizePt: z.number() }),
  /** Characters that no font here has; each is drawn as an empty box. */
  z.object({ type: z.literal('willNotPrint'), count: z.int(), characters: z.array(z.string()) }),
  /** Something that always prints has no room: the label is not printed on this layout. */
  z.object({ type: z.literal('doesNotFit'), parts: z.array(LabelPart) }),
]);
export type LabelNote = z.infer<typeof LabelNote>;
