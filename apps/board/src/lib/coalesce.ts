/**
 * Runs `work` at once, and once more at the end if it was asked for again meanwhile: ten changes in a burst cost two
 * fetches, and the last one always sees the last change. Two rounds begin at least `restMs` apart: while thousands of rows
 * are entered something changes a hundred times a second, and no page has to ask as often.
 */
export function coalesce(work: () => Promise<void>, restMs = 0): () => Promise<void> {
  let running: Promise<void> | undefined;
  let again = false;
  const loop = async (): Promise<void> => {
    do {
      again = false;
      await work();
      if (restMs > 0) await new Promise((resolve) => setTimeout(resolve, restMs));
    } while (again);
  };
  return () => {
    again = true;
    running ??= loop().finally(() => {
      running = undefined;
    });
    return running;
  };
}
