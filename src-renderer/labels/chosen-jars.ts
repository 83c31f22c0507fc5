import { Labelled, type LabelJar } from '#core/contract/labels.ts';
import { z } from 'zod';

/** A jar chosen at the desk, and how many labels it gets. */
export interface ChosenJar {
  readonly jar: LabelJar;
  readonly copies: number;
}

export const COPIES_MAX = 1000;
export const JARS_MAX = 1000;
export const LABELS_MAX = 5000;

/** One text for what is labelled, to tell two from each other. */
export function keyOfLabelled(of: Labelled): string {
  switch (of.kind) {
    case 'vessel':
      return `vessel ${of.vesselId}`;
    case 'batch':
      return `batch ${of.batchId}`;
    case 'lot':
      return `lot ${of.lotId}`;
  }
}

/** Those already chosen keep their copies and their order; new ones come behind, each with as many as one would want. */
export function withJars(chosen: readonly ChosenJar[], jars: readonly LabelJar[]): readonly ChosenJar[] {
  const known = new Set(chosen.map(({ jar }) => keyOfLabelled(jar.of)));
  const fresh = jars.filter(({ of }) => !known.has(keyOfLabelled(of)));
  return [...chosen, ...fresh.map((jar) => ({ jar, copies: Math.min(jar.copiesWanted, COPIES_MAX) }))].slice(
    0,
    JARS_MAX,
  );
}

export function withCopies(chosen: readonly ChosenJar[], key: string, copies: number): readonly ChosenJar[] {
  const kept = Math.min(COPIES_MAX, Math.max(1, Math.round(copies)));
  return chosen.map((one) => (keyOfLabelled(one.jar.of) === key ? { ...one, copies: kept } : one));
}

export function withoutJar(chosen: readonly ChosenJar[], key: string): readonly ChosenJar[] {
  return chosen.filter(({ jar }) => keyOfLabelled(jar.of) !== key);
}

export function labelsOf(chosen: readonly ChosenJar[]): number {
  return chosen.reduce((sum, { copies }) => sum + copies, 0);
}

/** How many labels a field says; null for what is no number of labels. */
export function readCopies(text: string): number | null {
  const plain = text.trim();
  if (!/^\d{1,4}$/u.test(plain)) return null;
  const copies = Number(plain);
  return copies >= 1 && copies <= COPIES_MAX ? copies : null;
}

const Kept = z.object({
  file: z.string(),
  jars: z.array(z.object({ of: Labelled, copies: z.int().min(1).max(COPIES_MAX) })).max(JARS_MAX),
});
export type KeptJars = z.infer<typeof Kept>;

/** The jars a window kept for this cellar; none for another cellar or for what cannot be read. */
export function keptJars(text: string | null, file: string): KeptJars['jars'] {
  try {
    const kept = Kept.safeParse(JSON.parse(text ?? 'null'));
    return kept.success && kept.data.file === file ? kept.data.jars : [];
  } catch {
    return [];
  }
}
