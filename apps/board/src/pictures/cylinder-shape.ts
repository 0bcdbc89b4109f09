/** Geometry of a cylinder in section. Heights are px of the drawing; a level is the share of the volume below it. */
export interface CylinderShape {
  readonly x: number;
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
  readonly height: number;
  readonly body: string;
  readonly valve: string;
  readonly foot: string;
}
const X = 20;
const SHOULDER = 34;
const FOOT = 14;
const VALVE = 58;

/** @param height px, valve and foot ring included; at least 160 */
export function cylinderShape(height: number): CylinderShape {
  const width = Math.round(height * 0.37);
  const body = height - VALVE - FOOT;
  const [right, bottom, middle] = [X + width, VALVE + body, X + width / 2];
  return {
    x: X,
    width,
    top: VALVE,
    bottom,
    height,
    body:
      `M${X} ${VALVE + SHOULDER}C${X} ${VALVE + 8} ${X + 24} ${VALVE} ${X + width * 0.36} ${VALVE}H${X + width * 0.64}` +
      `C${right - 24} ${VALVE} ${right} ${VALVE + 8} ${right} ${VALVE + SHOULDER}V${bottom - 20}` +
      `Q${right} ${bottom} ${right - 26} ${bottom}H${X + 26}Q${X} ${bottom} ${X} ${bottom - 20}Z`,
    valve:
      `M${middle - 13} ${VALVE}v-16h26v16M${middle - 7} ${VALVE - 16}v-14h14v14` +
      `M${middle - 20} ${VALVE - 34}h40M${middle + 7} ${VALVE - 22}h16`,
    foot: `M${X + 14} ${bottom - 2}v${FOOT}h${width - 28}v-${FOOT}`,
  };
}

/**
 * The height of a level. The shoulder holds less than its height says, so the scale begins a little below the top;
 * a share above 1 (liquid-full) stands at the top.
 */
export function levelY(shape: CylinderShape, share: number): number {
  const full = shape.top + SHOULDER * 0.3;
  return full + (shape.bottom - full) * (1 - Math.min(1, Math.max(0, share)));
}

/** Moves label heights apart, from the top, so that none stands within `gap` of the one before; keeps their order. */
export function spread(ys: readonly number[], gap: number): readonly number[] {
  const order = ys.map((y, i) => ({ y, i })).sort((a, b) => a.y - b.y);
  const placed = [...ys];
  let last = -Infinity;
  for (const { y, i } of order) {
    last = Math.max(y, last + gap);
    placed[i] = last;
  }
  return placed;
}
