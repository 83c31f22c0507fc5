import type { ToldGroup } from '#core/ledger/told-facts.ts';

/** What a group of told facts is about, in a few words. */
export const TOLD_GROUP_WORDS: Readonly<Record<ToldGroup, string>> = {
  inspection: 'how it looks and smells',
  recipient: 'who it is for',
  rawMaterial: 'what it was made from',
  recipe: 'the recipe',
  containsHoney: 'whether honey is in it',
  sulfiteAdded: 'whether sulfite is in it',
  calledSulfiteFree: 'whether it is called sulfite-free',
  calledAlcoholFree: 'whether it is called alcohol-free',
  concentrated: 'whether it was concentrated',
  pecticEnzymeWithPomace: 'whether pectic enzyme met the pomace',
  labelAudience: 'who gets it with its label',
  labelComplete: 'whether the label is complete',
  localLawChecked: 'whether local law was checked',
  storage: 'how it is stored',
  ferment: 'how warm it stood',
  salting: 'how it was salted',
  submersion: 'whether it stays under the brine',
  infusion: 'what was steeped in it',
  starter: 'the starter',
  secondFerment: 'the second ferment',
  fruit: 'the fruit',
  heating: 'how it was heated',
  sealing: 'how it is to be sealed',
  closing: 'how it is closed',
  vessel: 'the vessel itself',
  cleaning: 'how the vessel was cleaned',
  culture: 'the culture kept back',
};

export function sayToldGroup(group: string): string {
  return TOLD_GROUP_WORDS[group as ToldGroup];
}
