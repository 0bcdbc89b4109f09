/**
 * Runs `work` at once, and once more at the end if it was asked for again meanwhile: ten changes in a burst cost two
 * fetches, and the last one always sees the last change.
 */
export function coalesce(work: () => Promise<void>): () => Promise<void> {
  let running: Promise<void> | undefined;
  let again = false;
  const loop = async (): Promise<void> => {
    do {
      again = false;
      await work();
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
