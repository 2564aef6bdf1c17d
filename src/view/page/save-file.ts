/** Of everything that is saved, by the end of its name. */
const TYPES: Readonly<Record<string, string>> = {
  csv: 'text/csv',
  gz: 'application/gzip',
  json: 'application/json',
  mid: 'audio/midi',
  musicxml: 'application/vnd.recordare.musicxml+xml',
  png: 'image/png',
  svg: 'image/svg+xml',
};

/** Gives the player a file to save, as the browser does with what is downloaded. */
export function saveFile(name: string, content: string | Uint8Array | Blob): void {
  const part = content instanceof Uint8Array ? new Uint8Array(content) : content;
  const type = TYPES[name.slice(name.lastIndexOf('.') + 1)] ?? '';
  const url = URL.createObjectURL(new Blob([part], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser has begun to read it by then.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
