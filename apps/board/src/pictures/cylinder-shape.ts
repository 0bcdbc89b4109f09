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

export interface InsideTexts {
  readonly ullage?: string;
  readonly ullageNote?: string;
  readonly room?: string;
  readonly figure?: string;
  readonly notes?: readonly string[];
  readonly empty?: string;
}
export interface InsideLabel {
  readonly kind: 'name' | 'note' | 'figure' | 'dark';
  readonly text: string;
  readonly y: number;
}
interface Levels {
  readonly liquid: number;
  /** Where the legal fill stands. */
  readonly line: number | undefined;
  /** The top of what the contents need: hot or now. */
  readonly needed: number;
}

function aboveLiquid(shape: CylinderShape, { line, needed }: Levels, texts: InsideTexts): InsideLabel[] {
  const ceiling = Math.min(line ?? needed, needed);
  const y = (shape.top + ceiling) / 2 + 8;
  const labels: InsideLabel[] = [];
  if (texts.ullage && y < ceiling - 4) labels.push({ kind: 'name', text: texts.ullage, y });
  if (texts.ullageNote && y + 15 < ceiling - 2) labels.push({ kind: 'note', text: texts.ullageNote, y: y + 15 });
  if (texts.room && line !== undefined && needed - line > 24)
    labels.push({ kind: 'name', text: texts.room, y: (line + needed) / 2 + 5 });
  return labels;
}

function inLiquid(shape: CylinderShape, { liquid }: Levels, texts: InsideTexts): InsideLabel[] {
  if (shape.bottom - liquid < 44) return [];
  const y = liquid + (shape.bottom - liquid) * 0.46;
  const notes = (texts.notes ?? []).map((text, i): InsideLabel => ({ kind: 'dark', text, y: y + 19 + i * 17 }));
  const figure: InsideLabel[] = texts.figure ? [{ kind: 'figure', text: texts.figure, y }] : [];
  return [...figure, ...notes].filter((label) => label.y < shape.bottom - 8);
}

/** The texts that have room inside, and where; what does not fit is left out and stands in words beside the drawing. */
export function insideLabels(
  shape: CylinderShape,
  shares: {
    readonly liquid?: number | undefined;
    readonly limit?: number | undefined;
    readonly hot?: number | undefined;
  },
  texts: InsideTexts,
): readonly InsideLabel[] {
  const { liquid, limit, hot } = shares;
  if (liquid === undefined)
    return texts.empty ? [{ kind: 'name', text: texts.empty, y: (shape.top + shape.bottom) / 2 }] : [];
  const levels: Levels = {
    liquid: levelY(shape, liquid),
    line: limit === undefined ? undefined : levelY(shape, limit),
    needed: levelY(shape, Math.max(hot ?? liquid, liquid)),
  };
  return [...aboveLiquid(shape, levels, texts), ...inLiquid(shape, levels, texts)];
}
