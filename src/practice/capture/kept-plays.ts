import * as v from 'valibot';
import { checkKit } from '../../kit/parse-kit';
import type { SettingsStore } from '../../store/settings-store';
import { readPlayed, type Played } from './played';

const SETTING = 'captured plays';
/** So many of the things played are kept. Chosen. */
export const KEPT = 6;
/** And so many messages of them, since local storage holds a few megabytes: about one. Chosen. */
const MOST_MESSAGES = 60_000;

/** Time, status and two data bytes, one message after the other. */
const FIELDS = 4;
const PlayShape = v.object({
  messages: v.pipe(
    v.array(v.number()),
    v.check((numbers) => numbers.length % FIELDS === 0),
  ),
  kit: v.unknown(),
  clickBpm: v.optional(v.pipe(v.number(), v.minValue(1))),
  meter: v.string(),
  fileName: v.optional(v.string()),
  at: v.pipe(v.string(), v.isoTimestamp()),
});
type KeptPlay = v.InferOutput<typeof PlayShape>;

/** What was played, over a reload: the newest first. The player may have played it once and never again. */
export class KeptPlays {
  readonly #settings: Pick<SettingsStore, 'read' | 'write'>;

  constructor(settings: Pick<SettingsStore, 'read' | 'write'>) {
    this.#settings = settings;
  }

  /** Those that can be read; one that is damaged takes none of the others with it. */
  read(): readonly Played[] {
    return this.#settings.read(SETTING, v.array(v.unknown()), []).flatMap((kept) => {
      const play = v.safeParse(PlayShape, kept);
      const kit = play.success ? checkKit(play.output.kit) : undefined;
      if (!play.success || !kit?.ok) return [];
      const { messages, clickBpm, meter, fileName, at } = play.output;
      return [
        readPlayed({ messages: unpacked(messages), kit: kit.value, clickBpm, meter, fileName, at }),
      ];
    });
  }

  write(plays: readonly Played[]): void {
    let room = MOST_MESSAGES;
    const fitting: KeptPlay[] = [];
    for (const play of plays) {
      if (play.messages.length > room) continue;
      room -= play.messages.length;
      fitting.push(packed(play));
    }
    this.#settings.write(SETTING, fitting);
  }
}

const packed = ({ messages, kit, clickBpm, meter, fileName, at }: Played): KeptPlay => ({
  messages: messages.flatMap(({ timeUs, status, data1, data2 }) => [timeUs, status, data1, data2]),
  kit,
  clickBpm,
  meter,
  fileName,
  at,
});

const unpacked = (numbers: readonly number[]) =>
  Array.from({ length: numbers.length / FIELDS }, (_, i) => ({
    timeUs: numbers[FIELDS * i]!,
    status: numbers[FIELDS * i + 1]!,
    data1: numbers[FIELDS * i + 2]!,
    data2: numbers[FIELDS * i + 3]!,
  }));
