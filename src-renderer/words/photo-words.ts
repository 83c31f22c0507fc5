import { assertNever } from '#core/base/exhaustive.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { PhotoRow, PictureRefusal } from '#core/contract/photos.ts';
import type { PictureKind } from '#core/pictures/picture-kind.ts';
import type { SourceRefusal } from '#core/pictures/source-check.ts';
import { SOURCE_BYTES_MAX } from '#core/pictures/limits.ts';
import { sayDate } from './time-words.ts';

const KIND_WORDS: Readonly<Record<PictureKind, string>> = {
  jpeg: 'JPEG',
  png: 'PNG',
  webp: 'WebP',
  gif: 'GIF',
  avif: 'AVIF',
};

export type PhotoRefusal = SourceRefusal | { readonly type: 'Undecodable'; readonly kind: PictureKind };

/** What is said once beside the button that adds photos: what is taken, and what is done with it. */
export const WHAT_IS_KEPT = `JPEG, PNG, WebP, AVIF or GIF (its first picture), up to ${megabytes(SOURCE_BYTES_MAX)}. Each is painted anew at up to 2048 px and kept inside the cellar file, so the place, the camera and all else that was written into it are left behind.`;

/** Why a file was not taken, in a sentence that names it. */
export function sayPhotoRefusal(refusal: PhotoRefusal, name: string): string {
  const file = name === '' ? 'What was pasted' : `“${name.length > 60 ? `${name.slice(0, 59)}…` : name}”`;
  switch (refusal.type) {
    case 'Empty':
      return `${file} is empty. Choose another.`;
    case 'TooLarge':
      return `${file} has ${megabytes(refusal.bytes)}; at most ${megabytes(refusal.bytesMax)} is taken. Make it smaller first.`;
    case 'NotAPicture':
      return `${file} is no picture that is taken here, whatever its name says. JPEG, PNG, WebP, AVIF and GIF are.`;
    case 'Unreadable':
      return `${file} begins as a ${KIND_WORDS[refusal.kind]} and does not say how large it is. It may be cut off; choose another.`;
    case 'Undecodable':
      return `${file} begins as a ${KIND_WORDS[refusal.kind]} and could not be painted. It may be damaged; choose another.`;
    case 'TooManyPixels':
      return `${file} has ${refusal.widthPx.toLocaleString('en')} × ${refusal.heightPx.toLocaleString('en')} pixels; at most ${(refusal.pixelsMax / 1e6).toLocaleString('en')} million are taken. Make it smaller first.`;
    default:
      return assertNever(refusal);
  }
}

/** Why the cellar did not keep a picture that the page had made ready. */
export function sayPictureRefusal(refusal: PictureRefusal): string {
  switch (refusal.type) {
    case 'Empty':
      return 'The picture arrived empty.';
    case 'TooLarge':
      return `The picture has ${megabytes(refusal.bytes)}; at most ${megabytes(refusal.bytesMax)} is kept.`;
    case 'NotAJpeg':
      return 'What arrived is no JPEG.';
    case 'Damaged':
      return 'The picture arrived damaged, or with something behind it.';
    case 'CarriesNotes':
      return 'The picture carries notes beside it, which may say where it was taken.';
    case 'TooManyPixels':
      return `The picture has ${refusal.widthPx} × ${refusal.heightPx} pixels; at most ${refusal.sidePxMax} a side are kept.`;
    case 'WrongChecksum':
      return 'The picture arrived different from how it was sent.';
    case 'WrongSize':
      return `The picture is ${refusal.widthPx} × ${refusal.heightPx} pixels, which is not what was said of it.`;
    default:
      return assertNever(refusal);
  }
}

/** What a photo is to somebody who does not see it: its caption, or what it is of and when. */
export function altOf(
  photo: Pick<PhotoRow, 'caption' | 'atMs'>,
  of: string,
  rules: Pick<HouseRules, 'dates'>,
): string {
  return photo.caption === '' ? `${of}, ${sayDate(photo.atMs, rules)}, without a caption` : photo.caption;
}

function megabytes(bytes: number): string {
  const mb = bytes / (1024 * 1024);
  return `${mb < 10 ? Math.ceil(mb * 10) / 10 : Math.ceil(mb)} MB`;
}
