import { Nowhere } from '../../ui/nowhere.tsx';

/** Inside the frame, so that the way on is at hand. */
export default function NotFound() {
  return (
    <main>
      <Nowhere />
    </main>
  );
}
