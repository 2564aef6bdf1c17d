declare module 'jzz-midi-smf' {
  /** Adds the reader to JZZ. */
  export default function smf(jzz: unknown): void;
}
