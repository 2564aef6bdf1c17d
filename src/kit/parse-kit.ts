import * as v from 'valibot';
import { bad, good, type Result } from '../time/result';
import { MOST_ERRORS } from '../phrase/model/phrase-error';
import { boundariesOf } from './boundaries-of';
import type { CrosstalkMask, Kit, Pad } from './kit';
import { KitFile } from './kit-file';
import { fileIssues } from './file-issues';

export interface KitError {
  readonly code: 'TOO_LARGE' | 'NOT_JSON' | 'SHAPE' | 'NOTE_TWICE' | 'LEVELS' | 'GROUP';
  /** Path into the file with list places from 0: "pads[3].voice"; empty for the whole. */
  readonly place: string;
  readonly message: string;
}

/** Longest text that is read as a kit, characters. Chosen, not measured: ten times one with every note and mask. */
const MAX_TEXT = 1_000_000;

/**
 * A kit file's text, checked: a note map in which every note stands once and the levels are in order. Of what is
 * wrong at most MOST_ERRORS are named.
 *
 * @example parseKit('{').ok // => false
 */
export function parseKit(text: string): Result<Kit, KitError> {
  if (text.length > MAX_TEXT) {
    const message = `This text has ${text.length} characters, expected at most ${MAX_TEXT}; export the kit again.`;
    return bad({ code: 'TOO_LARGE', place: '', message });
  }
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    const message = `This text is not JSON (${(error as Error).message}); correct it there, or export the kit again.`;
    return bad({ code: 'NOT_JSON', place: '', message });
  }
  return checkKit(data);
}

/** The data of a kit file, checked. @example checkKit({}).ok // => false */
export function checkKit(data: unknown): Result<Kit, KitError> {
  const parsed = v.safeParse(KitFile, data);
  if (!parsed.success)
    return bad(...fileIssues(parsed.issues).map((issue) => ({ code: 'SHAPE' as const, ...issue })));
  const kit: Kit = parsed.output;
  const errors = [
    ...kit.pads.flatMap((pad, i) => padErrors(kit, pad, i)),
    ...(kit.crosstalk ?? []).flatMap((mask, i) => maskErrors(kit, mask, i)),
  ];
  return errors.length > 0 ? bad(...errors.slice(0, MOST_ERRORS)) : good(kit);
}

function padErrors(kit: Kit, pad: Pad, index: number): KitError[] {
  const errors: KitError[] = [];
  const first = kit.pads.findIndex(({ note }) => note === pad.note);
  if (first < index)
    errors.push({
      code: 'NOTE_TWICE',
      place: `pads[${index}].note`,
      message: `Note ${pad.note} stands for both "${kit.pads[first]!.name}" and "${pad.name}"; keep one of them.`,
    });
  const { ghostMax, accentMin } = boundariesOf(kit, pad.note);
  if (first === index && ghostMax >= accentMin)
    errors.push({
      code: 'LEVELS',
      place: `pads[${index}]`,
      message: `On "${pad.name}" ghosts reach up to ${ghostMax} and accents start at ${accentMin}; let the accents start above the ghosts.`,
    });
  return errors;
}

function maskErrors(kit: Kit, mask: CrosstalkMask, index: number): KitError[] {
  const place = `crosstalk[${index}]`;
  const unknown = [mask.struck, mask.answers].find(
    (group) => !kit.pads.some((pad) => pad.group === group),
  );
  if (unknown !== undefined)
    return [
      {
        code: 'GROUP',
        place,
        message: `No pad is of the group "${unknown}"; correct the name or take the pair out.`,
      },
    ];
  return mask.struck === mask.answers
    ? [
        {
          code: 'GROUP',
          place,
          message: `The group "${mask.struck}" cannot answer itself; use the retrigger time of its pads.`,
        },
      ]
    : [];
}

/**
 * The text of a kit file; `parseKit` reads the same kit back.
 *
 * @example parseKit(writeKit(GENERAL_MIDI)).ok // => true
 */
export function writeKit(kit: Kit): string {
  const { title, opening, pads, crosstalk } = kit;
  const file = { title, opening, pads, ...(crosstalk === undefined ? {} : { crosstalk }) };
  return `${JSON.stringify(file, null, 2)}\n`;
}
