import type { Route } from 'next';
import { redirect } from 'next/navigation';

export default function Settings() {
  redirect('/settings/sign-in' as Route);
}
