import type { Metadata, Viewport } from 'next';
import localFont from 'next/font/local';
import { headers } from 'next/headers';
import type { ReactNode } from 'react';
import { PictureDefs } from '../pictures/defs.tsx';
import { CspNonce } from '../ui/csp-nonce.tsx';
import { Toasts } from '../ui/toast.tsx';
import './globals.css';

// next/font reads these at build time: every option is a literal.
const dense = localFont({
  src: '../fonts/sofia.woff2',
  weight: '1 1000',
  variable: '--f-dense',
  display: 'swap',
  fallback: ['system-ui', 'sans-serif'],
});
const clear = localFont({
  src: '../fonts/atkinson.woff2',
  weight: '200 800',
  variable: '--f-clear',
  display: 'swap',
  fallback: ['system-ui', 'sans-serif'],
});

export const metadata: Metadata = { title: { default: 'Ullage', template: '%s · Ullage' } };
export const viewport: Viewport = {
  width: 'device-width',
  initialScale: 1,
  colorScheme: 'light dark',
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#e9edec' },
    { media: '(prefers-color-scheme: dark)', color: '#0f1416' },
  ],
};

export default async function RootLayout({ children }: { children: ReactNode }) {
  const nonce = (await headers()).get('x-nonce') ?? undefined;
  return (
    <html lang="en-US" className={`${dense.variable} ${clear.variable}`}>
      <head>
        <CspNonce nonce={nonce} />
      </head>
      <body>
        <PictureDefs />
        {children}
        <Toasts />
      </body>
    </html>
  );
}
