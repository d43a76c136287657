/** An affine map as SVG's `matrix(a b c d e f)` has it. */
export interface Matrix {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

export const IDENTITY: Matrix = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };

/** First `inner`, then `outer`. */
export const compose = (outer: Matrix, inner: Matrix): Matrix => ({
  a: outer.a * inner.a + outer.c * inner.b,
  b: outer.b * inner.a + outer.d * inner.b,
  c: outer.a * inner.c + outer.c * inner.d,
  d: outer.b * inner.c + outer.d * inner.d,
  e: outer.a * inner.e + outer.c * inner.f + outer.e,
  f: outer.b * inner.e + outer.d * inner.f + outer.f,
});

export const applyMatrix = (
  { a, b, c, d, e, f }: Matrix,
  x: number,
  y: number,
): { x: number; y: number } => ({
  x: a * x + c * y + e,
  y: b * x + d * y + f,
});

/**
 * Reads a `transform` attribute of translations, scalings and rotations, which is all that Verovio and we write.
 *
 * @throws Error for any other function: Verovio has changed
 */
export const readTransform = (text: string | undefined): Matrix => {
  // By far the most common: a glyph at its place.
  const usual = /^translate\((-?[\d.]+), (-?[\d.]+)\) scale\((-?[\d.]+), (-?[\d.]+)\)$/.exec(text ?? '');
  if (usual !== null) {
    return { a: Number(usual[3]), b: 0, c: 0, d: Number(usual[4]), e: Number(usual[1]), f: Number(usual[2]) };
  }
  let matrix = IDENTITY;
  for (const [, name = '', list = ''] of (text ?? '').matchAll(/(\w+)\s*\(([^)]*)\)/g)) {
    const numbers = list
      .split(/[\s,]+/)
      .filter((each) => each !== '')
      .map(Number);
    matrix = compose(matrix, matrixOf(name, numbers));
  }
  return matrix;
};

const matrixOf = (name: string, [x = 0, y, centreY = 0]: readonly number[]): Matrix => {
  switch (name) {
    case 'translate':
      return { ...IDENTITY, e: x, f: y ?? 0 };
    case 'scale':
      return { ...IDENTITY, a: x, d: y ?? x };
    case 'rotate':
      return rotation((x * Math.PI) / 180, y ?? 0, centreY);
    default:
      throw new Error(`SVG transform “${name}” is not supported`);
  }
};

const rotation = (radians: number, x: number, y: number): Matrix => {
  const cos = Math.cos(radians);
  const sin = Math.sin(radians);
  return { a: cos, b: sin, c: -sin, d: cos, e: x - cos * x + sin * y, f: y - sin * x - cos * y };
};
