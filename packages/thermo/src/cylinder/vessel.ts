import { vesselObstacles } from './obstacles.ts';
import type { Obstacle } from './obstacles.ts';
import { requalification } from './requalification.ts';
import type { CylinderRoomInput } from './room.ts';
import { parseSpecification } from './specification.ts';

export interface Vessel {
  readonly requalifyByOn: string | null;
  readonly whyNot: readonly Obstacle[];
}

/** What is known of a cylinder before it is known which gas goes in: its date, and what forbids filling it with any. */
export function cylinderVessel(
  input: Pick<CylinderRoomInput, 'kind' | 'specification' | 'lastTest' | 'service' | 'coated' | 'damage' | 'todayOn'>,
): Vessel {
  const specification = input.specification === undefined ? undefined : parseSpecification(input.specification);
  const service = input.service ?? (input.kind === 'recovery' ? 'recovery' : undefined);
  const due = requalification({ specification, lastTest: input.lastTest, service, coated: input.coated });
  const whyNot = vesselObstacles({
    disposable: input.kind === 'disposable',
    specification,
    damage: input.damage,
    requalification: due,
    filledOn: undefined,
    todayOn: input.todayOn,
  });
  return { requalifyByOn: due.known ? due.byOn : null, whyNot };
}
