import type { OtherTabs } from '../../../src/practice/compose/unsaved-edits';

/** As if every other tab were gone: a second page in a test is the page after a reload. */
export const NO_OTHER_TABS: OtherTabs = {
  hold: () => undefined,
  isOnHold: () => Promise.resolve(false),
};
