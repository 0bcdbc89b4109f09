/**
 * The patterns of all drawings, once per page. A pattern keeps its meaning in print: leaning right is what is not yours
 * to use, leaning left in vermillion is overdue, dots are gas in doubt, wide lines are time off.
 */
export function PictureDefs() {
  return (
    <svg width="0" height="0" style={{ position: 'absolute' }} aria-hidden="true">
      <defs>
        <pattern id="p-reserve" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="5" height="5" fill="var(--sheet)" />
          <rect width="1.3" height="5" fill="var(--ink-2)" />
        </pattern>
        <pattern id="p-late" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <rect width="6" height="6" fill="var(--sheet)" />
          <rect width="4" height="6" fill="var(--late)" />
        </pattern>
        <pattern id="p-doubt" width="5" height="5" patternUnits="userSpaceOnUse">
          <circle cx="1.5" cy="1.5" r=".9" fill="var(--ink-2)" />
        </pattern>
        <pattern id="p-off" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="1" height="7" fill="var(--rule-2)" />
        </pattern>
      </defs>
    </svg>
  );
}
