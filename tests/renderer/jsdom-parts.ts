// What jsdom leaves out of a page and our screens use: queries about the screen, scrolling, the acts of a dialog.

function lend(owner: object, name: string, part: unknown): void {
  if (typeof Reflect.get(owner, name) === 'function') return;
  Object.defineProperty(owner, name, { value: part, configurable: true, writable: true });
}

lend(window, 'matchMedia', (query: string) =>
  Object.assign(new EventTarget(), { matches: false, media: query }),
);
lend(Element.prototype, 'scrollIntoView', () => undefined);
lend(Element.prototype, 'scrollTo', () => undefined);
lend(HTMLDialogElement.prototype, 'showModal', function showModal(this: HTMLDialogElement) {
  this.open = true;
});
lend(HTMLDialogElement.prototype, 'close', function close(this: HTMLDialogElement) {
  this.open = false;
  this.dispatchEvent(new Event('close'));
});
