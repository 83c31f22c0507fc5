import { fitted, type PixelSize } from '#core/pictures/pixel-size.ts';

/** A picture painted anew as a JPEG. */
export interface Painted extends PixelSize {
  readonly jpeg: Blob;
}

export interface PaintLimits {
  readonly sidePxMax: number;
  readonly bytesMax: number;
}

/** Paints a picture once for each size that is asked for; null when the browser cannot decode it. */
export type Paint = (picture: Blob, sizes: readonly PaintLimits[]) => Promise<readonly Painted[] | null>;

/** Tried one after another until the picture is small enough; below the last it is painted at half its size. */
const QUALITIES = [0.88, 0.78, 0.66, 0.5];
const HALVINGS = 4;

/** By the browser's own decoder and a canvas: turned as its camera held it, of many pictures the first, on white. */
export const browserPaint: Paint = async (picture, sizes) => {
  const bitmap = await createImageBitmap(picture, { imageOrientation: 'from-image' }).catch(() => null);
  if (bitmap === null) return null;
  try {
    const painted: Painted[] = [];
    for (const limits of sizes) {
      const one = await paintWithin(bitmap, limits);
      if (one === null) return null;
      painted.push(one);
    }
    return painted;
  } finally {
    bitmap.close();
  }
};

async function paintWithin(
  bitmap: ImageBitmap,
  { sidePxMax, bytesMax }: PaintLimits,
): Promise<Painted | null> {
  const whole = { widthPx: bitmap.width, heightPx: bitmap.height };
  for (let halving = 0; halving <= HALVINGS; halving += 1) {
    const size = fitted(whole, Math.max(1, Math.floor(sidePxMax / 2 ** halving)));
    const canvas = painted(bitmap, size);
    for (const quality of QUALITIES) {
      const jpeg = await encoded(canvas, quality);
      if (jpeg === null) return null;
      if (jpeg.size <= bytesMax) return { ...size, jpeg };
    }
  }
  return null;
}

function painted(bitmap: ImageBitmap, { widthPx, heightPx }: PixelSize): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = widthPx;
  canvas.height = heightPx;
  const context = canvas.getContext('2d', { alpha: false });
  if (context !== null) {
    context.fillStyle = '#ffffff';
    context.fillRect(0, 0, widthPx, heightPx);
    context.imageSmoothingQuality = 'high';
    context.drawImage(bitmap, 0, 0, widthPx, heightPx);
  }
  return canvas;
}

function encoded(canvas: HTMLCanvasElement, quality: number): Promise<Blob | null> {
  return new Promise((settle) => {
    canvas.toBlob(settle, 'image/jpeg', quality);
  });
}
