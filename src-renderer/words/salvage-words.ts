import type { SalvageReport } from '#core/contract/salvage.ts';
import { counted } from './exchange-words.ts';

const ASIDE_WORDS: Readonly<Record<SalvageReport['aside'][number]['why'], string>> = {
  Unreadable: 'cannot be read',
  Unbalanced: 'does not add up',
  TwoVersions: 'is there twice, saying different things',
  Twice: 'is there a second time',
  CannotFollow: 'rests on something that is lost',
  OtherAmounts: 'says other amounts than it moves',
  PictureLost: 'belongs to a picture that is lost',
};

/** What became of a damaged file, in plain lines, the chief one first. */
export function saySalvage({
  lines,
  standIns,
  doubtful,
  pictures,
  nameRead,
  houseRulesRead,
}: SalvageReport): readonly string[] {
  const said = [
    `${counted(lines.saved, 'line')} of the book saved, ${lines.lost === 0 ? 'none' : counted(lines.lost, 'line')} lost of the ${counted(lines.highestSeen, 'line')} that left a trace. Lines written after the last of them are not known of.`,
  ];
  if (lines.aside > 0)
    said.push(`${counted(lines.aside, 'line')} found, but not taken into the new book; see below.`);
  if (lines.gaps.length > 0) {
    const gaps = lines.gaps.map(({ from, to }) => (from === to ? `${from}` : `${from} to ${to}`));
    said.push(`Missing: ${gaps.join(', ')}.`);
  }
  if (lines.reckonedAnew.length > 0)
    said.push(`${counted(lines.reckonedAnew.length, 'line')} reckoned anew from what is left before them.`);
  if (standIns.length > 0)
    said.push(
      `Written anew as far as the old shelf tells: ${standIns.map(({ what, name }) => `${what} “${name}”`).join(', ')}.`,
    );
  if (pictures.saved + pictures.damaged > 0) {
    const damaged = pictures.damaged > 0 ? `, ${counted(pictures.damaged, 'damaged one')} left out` : '';
    said.push(`${counted(pictures.saved, 'picture')} saved${damaged}.`);
  }
  if (doubtful.length > 0)
    said.push(
      `${counted(doubtful.length, 'line')} to be looked at, since the old shelf said otherwise: ${doubtful.map(({ sequence }) => sequence).join(', ')}.`,
    );
  if (!nameRead) said.push('The name of the cellar could not be read.');
  if (!houseRulesRead) said.push('The house rules could not be read and are as at first.');
  return said;
}

/** A line that was found and not taken. */
export function sayAside({ sequence, why, detail }: SalvageReport['aside'][number]): string {
  return `Line ${sequence} ${ASIDE_WORDS[why]}${detail === '' ? '' : ` (${detail})`}.`;
}
