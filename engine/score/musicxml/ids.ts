import type { Span } from '../../xml/tree.ts';

const ID_ATTRIBUTE = /\sid\s*=\s*(?:"([^"]*)"|'([^']*)')/g;

/** Gives every note, rest and bar an id of its own: the file's where that is unique, else one made from its place. */
export class IdRegistry {
  readonly #counts = new Map<string, number>();
  readonly #given = new Set<string>();

  /** @param source what looks like an id outside of a tag counts too: then one more id is made, and none is lost */
  constructor(source: string) {
    for (const [, double, single] of source.matchAll(ID_ATTRIBUTE)) {
      const id = double ?? single!;
      this.#counts.set(id, (this.#counts.get(id) ?? 0) + 1);
    }
  }

  /** @param prefix `n`, `r` or `b` for notes, rests and bars */
  idOf(sourceId: string, prefix: 'n' | 'r' | 'b', span: Span): string {
    const isUnique = sourceId !== '' && this.#counts.get(sourceId) === 1 && !this.#given.has(sourceId);
    return isUnique ? this.#give(sourceId) : this.fresh(`${prefix}${span.start}`);
  }

  /** `wish`, lengthened where the file or an earlier call already uses it. */
  fresh(wish: string): string {
    let id = wish;
    while (this.#counts.has(id) || !this.#take(id)) id += '_';
    return id;
  }

  /** @returns whether the id was free; it is taken from here on */
  #take(id: string): boolean {
    const { size } = this.#given;
    return this.#given.add(id).size > size;
  }

  #give(id: string): string {
    this.#given.add(id);
    return id;
  }
}
