import * as v from 'valibot';
import { MOST_BARS } from '../../notation/score/layer-score';
import { PAPERS, SHEET_SIZES } from '../../notation/sheet/sheet-look';
import type { SettingsStore } from '../../store/settings-store';
import { LEADING_HANDS } from '../choices';

export const SHEET_LAYERS = ['all', 'one'] as const;

const SheetChoicesShape = v.object({
  layers: v.picklist(SHEET_LAYERS),
  /** Undefined for as many as it takes to come round. */
  bars: v.optional(v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(MOST_BARS))),
  paper: v.picklist(PAPERS),
  size: v.picklist(SHEET_SIZES),
  hasStickings: v.boolean(),
  hasCounts: v.boolean(),
  /** Undefined for the one that is practised. */
  leadingHand: v.optional(v.picklist(LEADING_HANDS)),
});
/** How the player wants sheets, kept from one day to the next. */
export type SheetChoices = v.InferOutput<typeof SheetChoicesShape>;

export const FIRST_SHEET_CHOICES: SheetChoices = {
  layers: 'all',
  paper: 'A4',
  size: 'desk',
  hasStickings: true,
  hasCounts: true,
};

const SETTING = 'sheet';

export const readSheetChoices = (settings: SettingsStore): SheetChoices =>
  settings.read(SETTING, SheetChoicesShape, FIRST_SHEET_CHOICES);

export const writeSheetChoices = (settings: SettingsStore, choices: SheetChoices): void =>
  settings.write(SETTING, choices);
