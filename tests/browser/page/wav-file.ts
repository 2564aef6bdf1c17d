/** A mono sound of 16 bits as a WAVE file (Microsoft & IBM, Multimedia Programming Interface 1.0, 1991: RIFF, fmt, data). */
export function wavFile(samples: Float32Array, sampleRate: number): Buffer {
  const data = Buffer.alloc(2 * samples.length);
  samples.forEach((sample, i) =>
    data.writeInt16LE(Math.round(Math.max(-1, Math.min(1, sample)) * 32_767), 2 * i),
  );
  const head = Buffer.alloc(44);
  head.write('RIFF', 0);
  head.writeUInt32LE(36 + data.length, 4);
  head.write('WAVEfmt ', 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(sampleRate, 24);
  head.writeUInt32LE(2 * sampleRate, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write('data', 36);
  head.writeUInt32LE(data.length, 40);
  return Buffer.concat([head, data]);
}
