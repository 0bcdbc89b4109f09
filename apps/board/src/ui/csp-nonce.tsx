'use client';
import { useState } from 'react';

/**
 * react-aria adds one <style> of its own and reads the nonce for it here. A page that is refreshed in place gets another
 * nonce with each answer, and the browser goes on believing the first.
 */
export function CspNonce({ nonce }: { nonce: string | undefined }) {
  const [first] = useState(nonce);
  return <meta property="csp-nonce" nonce={first} />;
}
