import type { ChangeFile, PhraseFile, SettingFile } from '../model/phrase-file';
import { changeName } from './change-name';
import { changesOf, withChanges } from './edit-changes';
import { phraseUpTo } from './phrase-up-to';
import { soundOf } from './sound-of';

/**
 * A layer (1-based) as several, each with one of its changes and a name that says what it does; a layer whose one
 * change sets several things, as one for each of them, in the first order that sounds the same. The same file when
 * the layer is one idea already.
 */
export function splitLayer(file: PhraseFile, layer: number): PhraseFile {
  const whole = file.layers[layer - 1];
  const changes = changesOf(file, layer);
  const parts = changes.length === 1 ? settingsApart(file, layer, changes[0]!) : changes;
  if (!whole || parts.length < 2) return file;
  const names = parts.map(changeName);
  const layers = parts.map((change, i) => {
    const same = names.filter((name) => name === names[i]);
    const before = names.slice(0, i + 1).filter((name) => name === names[i]);
    const name = same.length > 1 ? `${names[i]} ${before.length}` : names[i]!;
    return withChanges({ ...whole, name }, [change]);
  });
  return { ...file, layers: file.layers.toSpliced(layer - 1, 1, ...layers) };
}

function settingsApart(file: PhraseFile, layer: number, change: ChangeFile): ChangeFile[] {
  if (!('set' in change)) return [change];
  const keys = Object.keys(change.set) as (keyof SettingFile)[];
  const before = phraseUpTo(file, layer);
  if (keys.length < 2 || !before) return [change];
  const sound = soundOf(before);
  const whole = file.layers[layer - 1]!;
  for (const order of orders(keys)) {
    const parts = order.map((key) => ({ ...change, set: { [key]: change.set[key] } }));
    const layers = file.layers.with(layer - 1, withChanges(whole, parts));
    const after = phraseUpTo({ ...file, layers }, layer);
    if (after && soundOf(after) === sound) return parts;
  }
  return [change];
}

function orders<T>(items: readonly T[]): T[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((first, i) =>
    orders(items.toSpliced(i, 1)).map((others) => [first, ...others]),
  );
}
