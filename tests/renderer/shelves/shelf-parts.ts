import '../jsdom-parts.ts';

// jsdom lays nothing out: the shelves are told that they are as large as a window's main part, and that nothing paints.

const SIZE = { clientWidth: 920, clientHeight: 680 } as const;

/** Lends the page what the shelves measure and what jsdom leaves out. */
export function lendShelfParts(): void {
  for (const [name, value] of Object.entries(SIZE))
    Object.defineProperty(HTMLElement.prototype, name, { configurable: true, get: () => value });
  Object.defineProperty(document, 'fonts', {
    configurable: true,
    value: { ready: new Promise(() => undefined) },
  });
  HTMLCanvasElement.prototype.getContext = (() => null) as HTMLCanvasElement['getContext'];
  HTMLElement.prototype.hidePopover = () => undefined;
  globalThis.ResizeObserver = class {
    observe(): void {
      return undefined;
    }
    unobserve(): void {
      return undefined;
    }
    disconnect(): void {
      return undefined;
    }
  };
}
