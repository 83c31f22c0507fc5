import { readShelfInks } from './shelf-inks.ts';
import { SpriteAtlas } from './sprite-atlas.ts';

const QUERIES = ['(prefers-color-scheme: dark)', '(forced-colors: active)', '(prefers-contrast: more)'];

/** The screen the shelves are painted for: its pixel ratio, the size of the text, and the sprites in its colours. */
export class ShelfScreen {
  /** How many times larger than usual the interface's text is. */
  textScale = $state(1);
  pixelRatio = $state(1);
  atlas = $state.raw<SpriteAtlas | null>(null);

  /** Follows theme, contrast, fonts and a move to another display for as long as `within` is in the page. */
  follow(within: HTMLElement): () => void {
    const repaint = (): void => {
      this.atlas = new SpriteAtlas(readShelfInks(within), this.pixelRatio);
    };
    const themed = (): void => {
      this.#measure();
      repaint();
    };
    const resized = (): void => {
      const before = this.pixelRatio;
      this.#measure();
      if (before !== this.pixelRatio) repaint();
    };
    themed();
    void document.fonts.ready.then(repaint);
    const queries = QUERIES.map((query) => matchMedia(query));
    for (const query of queries) query.addEventListener('change', repaint);
    const watching = new MutationObserver(themed);
    watching.observe(document.documentElement, { attributes: true });
    window.addEventListener('resize', resized);
    return () => {
      for (const query of queries) query.removeEventListener('change', repaint);
      watching.disconnect();
      window.removeEventListener('resize', resized);
    };
  }

  #measure(): void {
    const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
    this.textScale = Number.isFinite(rem) ? rem / 16 : 1;
    this.pixelRatio = window.devicePixelRatio || 1;
  }
}
