import { useEffect, useState } from 'preact/hooks';

/** False until the first picture of a view stands: what is not seen at once is made after it. */
export const useAfterPaint = (): boolean => {
  const [isPainted, setPainted] = useState(false);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | null = null;
    const frame = requestAnimationFrame(() => {
      timer = setTimeout(() => setPainted(true));
    });
    return () => {
      cancelAnimationFrame(frame);
      if (timer !== null) clearTimeout(timer);
    };
  }, []);
  return isPainted;
};
