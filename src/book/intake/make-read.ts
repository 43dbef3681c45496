import type { TakeOptions } from '../../captures/index.js';
import type { ToldOfFile } from '../../checks/index.js';
import type { Finding } from '../../findings/index.js';
import type { LocalDateTime } from '../../model/index.js';
import type { Read } from '../../read/index.js';
import { knowRead } from '../kept/index.js';
import type { ReadToRecord } from '../store/index.js';
import { hashContent } from './hash-content.js';

/** Makes reads what the book records of them: checked once, by the roster of today. */
export class ReadMaker {
  readonly #take: TakeOptions;

  constructor(take: TakeOptions) {
    this.#take = take;
  }

  /** What today's captures list tells of a file; null where it does not. */
  toldOf(name: string): ToldOfFile | null {
    return this.#take.roster.listed(name);
  }

  /**
   * What is recorded of each read of a file.
   *
   * @param receivedAt - the file's own time, where the user says that it is when the file was received
   * @param ofFile - what was found on the file as a whole; null where that is not known before its reads are recorded
   */
  ofFile(
    name: string,
    receivedAt: LocalDateTime | null,
    ofFile: readonly Finding[] | null,
  ): (read: Read) => ReadToRecord {
    const options = receivedAt === null ? this.#take : { ...this.#take, fileTime: receivedAt };
    return (read) => {
      const given = { read, content: hashContent(read), ofFile: read.number === 0 ? ofFile : null };
      const { recorded, known } = knowRead(name, given, options);
      return { ...recorded, ...known };
    };
  }
}
