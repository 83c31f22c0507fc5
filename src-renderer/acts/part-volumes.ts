const ML_UL = 1000;

/**
 * A volume in so many equal parts, in whole µL: they add up to the whole, and the first are the larger ones by one. A
 * volume of whole millilitres is parted in whole millilitres, as far as it goes, since that can be measured.
 */
export function equalParts(wholeUl: number, count: number): readonly number[] {
  const unitUl = wholeUl % ML_UL === 0 && wholeUl / ML_UL >= count ? ML_UL : 1;
  const units = Math.max(0, Math.round(wholeUl / unitUl));
  const each = Math.floor(units / count);
  return Array.from({ length: count }, (_, i) => (each + (i < units - each * count ? 1 : 0)) * unitUl);
}

/**
 * Fills one vessel after another to its brim until nothing is left. `roomsUl` is the free room of each; null where no
 * vessel is chosen yet, which then gets nothing.
 */
export function filledInTurn(wholeUl: number, roomsUl: readonly (number | null)[]): readonly number[] {
  let leftUl = Math.max(0, wholeUl);
  return roomsUl.map((roomUl) => {
    const goesUl = Math.min(leftUl, Math.max(0, roomUl ?? 0));
    leftUl -= goesUl;
    return goesUl;
  });
}
