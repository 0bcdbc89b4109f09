import { redirect } from 'next/navigation';
import { getMe } from '../lib/session.ts';
import { firstScreen } from '../office/places.ts';

/** Everyone begins where their day begins. Outside the office’s frame, so that it answers with a real redirect. */
export default async function StartPage() {
  const { role } = await getMe();
  redirect(firstScreen(role));
}
