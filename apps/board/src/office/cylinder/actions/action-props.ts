import type { CylinderView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';

/** What the form of every action on a cylinder is given. */
export interface ActionProps {
  readonly view: CylinderView;
  /** The firm's unit of mass, and what a scale is taken to show at first. */
  readonly unit: MassUnit;
  /** Zone of the firm. */
  readonly zone: string;
  /** Every gas that can be named. */
  readonly refrigerants: readonly string[];
  /** Whether whoever looks may open a recall. */
  readonly mayRecall: boolean;
  readonly onClose: () => void;
}
/** How a cylinder is called in a title. */
export const nameOf = ({ cylinder }: ActionProps['view']): string => cylinder.label ?? cylinder.serial;
