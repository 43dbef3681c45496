import { PassThrough, Writable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { Output, OutputClosed } from '../../src/cli/output.js';

describe('Output', () => {
  it('writes no faster than the stream takes it', async () => {
    const stream = new PassThrough({ highWaterMark: 4 });
    const output = new Output(stream);
    let isDone = false;
    const writing = output.write('0123456789').then(() => {
      isDone = true;
    });
    await new Promise((resolve) => setImmediate(resolve));
    expect(isDone).toBe(false);
    stream.resume();
    await writing;
    expect(isDone).toBe(true);
    await output.flush();
  });

  const failing = (code: string) =>
    new Writable({
      highWaterMark: 1,
      write(_chunk, _encoding, done) {
        setImmediate(() => done(Object.assign(new Error(code), { code })));
      },
    });

  it('says so when nobody reads any more', async () => {
    const output = new Output(failing('EPIPE'));
    await expect(output.write('text').then(() => output.flush())).rejects.toBeInstanceOf(OutputClosed);
    await expect(output.write('more')).rejects.toBeInstanceOf(OutputClosed);
  });

  it('says why it could not be written otherwise', async () => {
    const output = new Output(failing('ENOSPC'));
    await expect(output.write('text').then(() => output.flush())).rejects.toThrow(
      'standard output could not be written: the disk is full.',
    );
  });
});
