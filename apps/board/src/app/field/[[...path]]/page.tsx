import type { Metadata } from 'next';
import { FieldApp } from '../../../field/app.tsx';

export const metadata: Metadata = { title: 'Field' };

/** One shell for every path under /field: the app reads the path itself, so that one kept page can open them all. */
export default function Page() {
  return <FieldApp />;
}
