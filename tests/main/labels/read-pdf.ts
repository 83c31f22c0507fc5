import { createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import jsQR from 'jsqr';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** A PDF read back by another library than the one that wrote it. Lengths in mm from the upper left corner of the page. */
export interface ReadPdf {
  readonly pages: readonly ReadPage[];
  /** The file as Latin-1 text: what is not a stream can be looked at. */
  readonly raw: string;
  readonly lang: string | null;
  readonly title: string | null;
}

export interface ReadPage {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Pieces of text with the left end of their baseline. */
  readonly texts: readonly {
    readonly text: string;
    readonly xMm: number;
    readonly yMm: number;
    readonly sizePt: number;
  }[];
  /** Fonts that show text, each with whether its file lies in the PDF. */
  readonly fonts: readonly { readonly name: string; readonly embedded: boolean }[];
  /** `oneBit` prints each dot black or not at all, as a printer for labels does. */
  render(dpi: number, oneBit?: boolean): Promise<Picture>;
}

/** A rendered page. */
export interface Picture {
  /** Reads the code within a rectangle, with another library than the one that made it; null when there is none. */
  codeIn(xMm: number, yMm: number, widthMm: number, heightMm: number): ReadCode | null;
  /** True when every dot there is black or white: what is drawn ends on whole dots. */
  isCrisp(xMm: number, yMm: number, widthMm: number, heightMm: number): boolean;
  /** True when nothing is printed there. */
  isBlank(xMm: number, yMm: number, widthMm: number, heightMm: number): boolean;
}
export interface ReadCode {
  readonly text: string;
  readonly version: number;
  /** The outer corner of the finder pattern at the upper left. */
  readonly xMm: number;
  readonly yMm: number;
}

const POINT_MM = 25.4 / 72;

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const raw = Buffer.from(bytes).toString('latin1');
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  const { info } = (await document.getMetadata()) as { info: { Title?: string; Language?: string } };
  const pages: ReadPage[] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const [left = 0, foot = 0, right = 0, top = 0] = page.view;
    const content = await page.getTextContent({ disableNormalization: true });
    const texts = content.items.flatMap((item) => {
      if (!('str' in item) || item.str.trim() === '') return [];
      const [, , , size = 0, x = 0, y = 0] = item.transform as number[];
      return [
        { text: item.str, xMm: (x - left) * POINT_MM, yMm: (top - y) * POINT_MM, sizePt: Math.abs(size) },
      ];
    });
    const operators = await page.getOperatorList();
    const fonts = new Map<string, { name: string; embedded: boolean }>();
    operators.fnArray.forEach((fn, at) => {
      if (fn !== OPS.setFont) return;
      const [id] = operators.argsArray[at] as [string];
      const font = page.commonObjs.get(id) as {
        readonly loadedName: string;
        readonly missingFile: boolean;
        readonly isInvalidPDFjsFont: boolean;
      };
      const embedded = !font.missingFile && !font.isInvalidPDFjsFont;
      fonts.set(id, { name: font.loadedName, embedded });
    });
    pages.push({
      ...{ widthMm: (right - left) * POINT_MM, heightMm: (top - foot) * POINT_MM, texts },
      fonts: [...fonts.values()],
      async render(dpi, oneBit = false) {
        const viewport = page.getViewport({ scale: dpi / 72 });
        const canvas = createCanvas(Math.ceil(viewport.width), Math.ceil(viewport.height));
        const context = canvas.getContext('2d');
        const target = { canvas: canvas as never, canvasContext: context as never, viewport };
        await page.render(target).promise;
        if (oneBit) blackOrWhite(context);
        return pictureOf(context, dpi);
      },
    });
  }
  return { pages, raw, lang: info.Language ?? null, title: info.Title ?? null };
}

function blackOrWhite(context: SKRSContext2D): void {
  const image = context.getImageData(0, 0, context.canvas.width, context.canvas.height);
  for (let at = 0; at < image.data.length; at += 4) {
    const value = (image.data[at] ?? 0) < 128 ? 0 : 255;
    image.data.fill(value, at, at + 3);
  }
  context.putImageData(image, 0, 0);
}

function pictureOf(context: SKRSContext2D, dpi: number): Picture {
  const dots = (mm: number): number => (mm * dpi) / 25.4;
  const cut = (xMm: number, yMm: number, widthMm: number, heightMm: number) => {
    const [x, y] = [Math.floor(dots(xMm)), Math.floor(dots(yMm))];
    return { x, y, image: context.getImageData(x, y, Math.ceil(dots(widthMm)), Math.ceil(dots(heightMm))) };
  };
  return {
    codeIn(...at) {
      const { x, y, image } = cut(...at);
      const read = jsQR(image.data, image.width, image.height);
      if (read === null) return null;
      const { topLeftCorner: corner } = read.location;
      return {
        ...{ text: read.data, version: read.version },
        ...{ xMm: ((x + corner.x) * 25.4) / dpi, yMm: ((y + corner.y) * 25.4) / dpi },
      };
    },
    isCrisp(...at) {
      const { data } = cut(...at).image;
      return data.every((value, index) => index % 4 === 3 || value < 12 || value > 243);
    },
    isBlank(...at) {
      const { data } = cut(...at).image;
      return data.every((value, index) => index % 4 === 3 || value > 250);
    },
  };
}
