import { createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Draws the sample cellar's pictures and writes them down as `sample-year/drawn.ts`: our own drawings, so that no
 * photograph of anybody's cellar is needed. Run by hand after a change: `npx node demo/draw-pictures.ts`.
 */
const WIDTH = 720;
const HEIGHT = 540;
const SMALL = 320 / WIDTH;

type Ink = SKRSContext2D;

/** A shelf before a wall, with light from one side. */
function room(ink: Ink, wall: string, board: string): void {
  const light = ink.createLinearGradient(0, 0, WIDTH, HEIGHT);
  light.addColorStop(0, '#fff4dd');
  light.addColorStop(1, wall);
  ink.fillStyle = light;
  ink.fillRect(0, 0, WIDTH, HEIGHT);
  ink.fillStyle = board;
  ink.fillRect(0, 452, WIDTH, 88);
  ink.fillStyle = 'rgba(0,0,0,0.18)';
  ink.fillRect(0, 452, WIDTH, 6);
}

function rounded(ink: Ink, box: readonly [x: number, y: number, w: number, h: number], corner: number): void {
  ink.beginPath();
  ink.roundRect(...box, corner);
}

/** A wide jar with a liquid up to a height, and what floats on it. */
function jar(ink: Ink, liquid: string, onTop: (ink: Ink, y: number) => void): void {
  ink.fillStyle = 'rgba(0,0,0,0.16)';
  ink.beginPath();
  ink.ellipse(372, 462, 180, 16, 0, 0, Math.PI * 2);
  ink.fill();
  rounded(ink, [210, 90, 300, 370], 46);
  ink.fillStyle = 'rgba(226,238,238,0.75)';
  ink.fill();
  ink.save();
  ink.clip();
  ink.fillStyle = liquid;
  ink.fillRect(210, 190, 300, 280);
  onTop(ink, 190);
  ink.fillStyle = 'rgba(255,255,255,0.35)';
  ink.fillRect(232, 110, 22, 330);
  ink.restore();
  ink.lineWidth = 7;
  ink.strokeStyle = '#6d8585';
  rounded(ink, [210, 90, 300, 370], 46);
  ink.stroke();
  rounded(ink, [226, 66, 268, 34], 12);
  ink.fillStyle = '#e9dfc6';
  ink.fill();
  ink.lineWidth = 4;
  ink.strokeStyle = '#9c8d6a';
  ink.stroke();
}

/** The outline of a demijohn. */
function carboy(ink: Ink): void {
  ink.beginPath();
  ink.moveTo(330, 60);
  ink.lineTo(390, 60);
  ink.lineTo(392, 150);
  ink.quadraticCurveTo(520, 190, 520, 290);
  ink.lineTo(520, 440);
  ink.quadraticCurveTo(520, 460, 500, 460);
  ink.lineTo(220, 460);
  ink.quadraticCurveTo(200, 460, 200, 440);
  ink.lineTo(200, 290);
  ink.quadraticCurveTo(200, 190, 328, 150);
  ink.closePath();
}

const DRAWINGS: Readonly<Record<string, (ink: Ink) => void>> = {
  filmOnApple(ink) {
    room(ink, '#d9c39a', '#8a6642');
    jar(ink, '#c98a2b', (on, y) => {
      on.fillStyle = '#efe2c2';
      on.beginPath();
      on.ellipse(360, y + 8, 152, 20, 0, 0, Math.PI * 2);
      on.fill();
      on.fillStyle = 'rgba(239,226,194,0.5)';
      for (const [x, length] of [
        [268, 46],
        [330, 84],
        [402, 58],
        [458, 34],
      ] as const) {
        on.fillRect(x, y + 18, 7, length);
      }
    });
  },
  threadsOnPeel(ink) {
    room(ink, '#b9bcae', '#6f5a45');
    jar(ink, '#b89a55', (on, y) => {
      on.fillStyle = '#dcd3b4';
      on.beginPath();
      on.ellipse(360, y + 8, 152, 18, 0, 0, Math.PI * 2);
      on.fill();
      for (const [x, wide] of [
        [290, 26],
        [352, 40],
        [430, 22],
      ] as const) {
        on.fillStyle = '#6f8a6a';
        on.beginPath();
        on.ellipse(x, y + 2, wide, 13, 0, 0, Math.PI * 2);
        on.fill();
        on.strokeStyle = '#8fa389';
        on.lineWidth = 2;
        for (let hair = -wide; hair <= wide; hair += 7) {
          on.beginPath();
          on.moveTo(x + hair, y - 2);
          on.lineTo(x + hair * 1.25, y - 24);
          on.stroke();
        }
      }
    });
  },
  foamInTheNeck(ink) {
    room(ink, '#cfd6cc', '#8a6642');
    carboy(ink);
    ink.fillStyle = 'rgba(226,238,238,0.8)';
    ink.fill();
    ink.save();
    ink.clip();
    ink.fillStyle = '#d8a64a';
    ink.fillRect(190, 200, 340, 270);
    ink.fillStyle = '#f4e9cf';
    for (const [x, y, r] of [
      [250, 206, 30],
      [300, 196, 34],
      [360, 178, 38],
      [420, 198, 34],
      [470, 208, 28],
      [352, 138, 24],
      [372, 110, 18],
    ] as const) {
      ink.beginPath();
      ink.arc(x, y, r, 0, Math.PI * 2);
      ink.fill();
    }
    ink.restore();
    carboy(ink);
    ink.lineWidth = 7;
    ink.strokeStyle = '#6d8585';
    ink.stroke();
    ink.strokeStyle = '#8fa3a3';
    ink.lineWidth = 10;
    ink.beginPath();
    ink.moveTo(360, 60);
    ink.lineTo(360, 24);
    ink.quadraticCurveTo(360, 8, 384, 8);
    ink.quadraticCurveTo(404, 8, 404, 30);
    ink.stroke();
  },
};

async function bytesOf(draw: (ink: Ink) => void, scale: number, quality: number): Promise<string> {
  const canvas = createCanvas(Math.round(WIDTH * scale), Math.round(HEIGHT * scale));
  const ink = canvas.getContext('2d');
  ink.scale(scale, scale);
  draw(ink);
  return (await canvas.encode('jpeg', quality)).toString('base64');
}

const wrapped = (base64: string): string =>
  (base64.match(/.{1,100}/gu) ?? []).map((line) => `  '${line}',`).join('\n');

if (import.meta.main) {
  const parts: string[] = [];
  for (const [name, draw] of Object.entries(DRAWINGS)) {
    parts.push(`const ${name}Bytes = [\n${wrapped(await bytesOf(draw, 1, 70))}\n];`);
    parts.push(`const ${name}Small = [\n${wrapped(await bytesOf(draw, SMALL, 70))}\n];`);
  }
  const exported = Object.keys(DRAWINGS).map((name) => `  ${name}: drawn(${name}Bytes, ${name}Small),`);
  const file = join(import.meta.dirname, 'sample-year', 'drawn.ts');
  writeFileSync(
    file,
    `import type { Drawn } from './telling.ts';\n
// Written by demo/draw-pictures.ts: JPEGs of our own drawings, as base64.\n
const bytes = (lines: readonly string[]): Uint8Array => new Uint8Array(Buffer.from(lines.join(''), 'base64'));
const drawn = (picture: readonly string[], thumbnail: readonly string[]): Drawn => ({
  ...{ widthPx: ${WIDTH}, heightPx: ${HEIGHT} },
  ...{ picture: bytes(picture), thumbnail: bytes(thumbnail) },
});\n
// prettier-ignore
${parts.join('\n// prettier-ignore\n')}\n
/** Pictures of the sample cellar by what they show. */
export const DRAWN = {
${exported.join('\n')}
} as const;\n`,
  );
}
