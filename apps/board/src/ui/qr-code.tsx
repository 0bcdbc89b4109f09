'use client';
import { encode } from 'uqr';
import css from './qr-code.module.css';

/** A code for a phone's camera (ISO/IEC 18004), drawn dark on light in both themes: many readers know no other. */
export function QrCode({ text, label }: { text: string; label: string }) {
  const { data, size } = encode(text, { ecc: 'M', border: 4 });
  const path = data
    .flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : '')))
    .filter((part) => part !== '')
    .join('');
  return (
    <div className={css['qr']}>
      <svg viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label} shapeRendering="crispEdges">
        <path d={path} fill="#000" />
      </svg>
    </div>
  );
}
