/** How pressing a due check is, told apart on its tag by form: outlined, filled, reversed and notched. */
export type DueTone = 'soon' | 'today' | 'late';
