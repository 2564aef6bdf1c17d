import type { MidiFileError } from './midi-file';

/** Carries an error of the input out of the reader; never leaves readMidiFile. */
export class MidiFileFault extends Error {
  constructor(readonly fault: MidiFileError) {
    super(fault.message);
  }
}

/** Walks over bytes and never beyond `end`; every step goes forward. */
export class ByteCursor {
  constructor(
    readonly bytes: Uint8Array,
    public at: number,
    readonly end: number,
    readonly track?: number,
  ) {}

  get left(): number {
    return this.end - this.at;
  }

  fail(code: MidiFileError['code'], message: string, at = this.at): never {
    throw new MidiFileFault({
      code,
      at,
      ...(this.track === undefined ? {} : { track: this.track }),
      message: `At byte ${at}${this.track === undefined ? '' : ` in track ${this.track}`}: ${message}`,
    });
  }

  byte(): number {
    if (this.at >= this.end)
      this.fail('CUT_OFF', 'the data ends inside an event; export the file again.');
    return this.bytes[this.at++]!;
  }

  uint(size: number): number {
    let value = 0;
    for (let i = 0; i < size; i++) value = value * 256 + this.byte();
    return value;
  }

  /** A variable-length quantity: at most four bytes, so never above 0x0FFFFFFF. */
  variableLength(): number {
    const start = this.at;
    let value = 0;
    for (let i = 0; i < 4; i++) {
      const byte = this.byte();
      value = value * 128 + (byte & 0x7f);
      if (byte < 0x80) return value;
    }
    return this.fail('NUMBER', 'a number runs over more than four bytes.', start);
  }

  /** The next `length` bytes, which must be there. */
  take(length: number): Uint8Array {
    if (length > this.left)
      this.fail(
        'CUT_OFF',
        `${length} bytes should follow but only ${this.left} do; export the file again.`,
      );
    this.at += length;
    return this.bytes.subarray(this.at - length, this.at);
  }
}
