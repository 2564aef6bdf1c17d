import { mount, unmount } from 'svelte';
import type { MethodName } from './method';
import MethodNote from './MethodNote.svelte';

export { default as Methods } from './Methods.svelte';

/** Shows over the page how something is worked out. */
export function showMethod(of: MethodName): void {
  const note = mount(MethodNote, {
    target: document.body,
    props: { of, close: () => void unmount(note) },
  });
}
