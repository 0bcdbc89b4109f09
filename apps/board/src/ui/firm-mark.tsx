/** A cylinder with the ullage above its liquid. */
export function FirmMark({ size = 17 }: { size?: number }) {
  return (
    <svg width={size} height={size} viewBox="0 0 17 17" aria-hidden="true">
      <path
        d="M3.5 15.5v-9q0-2.5 2.5-3.3V1.5h5v1.7q2.5.8 2.5 3.3v9Z"
        fill="none"
        stroke="currentColor"
        strokeWidth="1.5"
      />
      <path d="M3.5 9h10v6.5h-10Z" fill="currentColor" />
    </svg>
  );
}
