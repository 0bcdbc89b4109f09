/**
 * Cautions at the steps where work can hurt: short, and never instead of local codes, the maker's instructions and
 * licensed practice. Common practice of the trade unless a source stands beside it.
 */
import { Caution } from '../../ui/caution.tsx';
import { isFlammable } from '../flammable.ts';
import css from './step.module.css';

export const Electricity = () => (
  <Caution title="Electricity">off, locked, tried dead. Capacitors hold charge.</Caution>
);
export const Nitrogen = () => (
  <Caution title="Nitrogen">
    over 2,000 psi behind the regulator. Regulator, gauge and relief valve on; never above the nameplate; open slowly,
    not standing in line. Never oxygen, never shop air: they explode with oil.
  </Caution>
);
export const Torch = () => (
  <Caution title="Torch">
    recover and ventilate first: refrigerant in a flame gives poisonous acid gas. Nitrogen flowing, extinguisher at
    hand, stay 30 minutes after. Hot-work permit where the site asks for one.
  </Caution>
);
export const Cylinder = () => (
  <Caution title="Cylinder">
    never over the gross limit: warm liquid has no room and bursts it. Never above 52 °C (125 °F), no torch near it.
  </Caution>
);
export const ColdBurn = () => (
  <Caution title="Cold burn">
    liquid at −40 °C freezes skin and eyes. Gloves and goggles; never shut liquid in between two valves.
  </Caution>
);
export const Suffocation = () => (
  <Caution title="Suffocation">
    gas is heavier than air and collects in pits, plant rooms and walk-ins. Ventilate, measure oxygen (out below 19.5
    %), do not go alone.
  </Caution>
);
export const Vacuum = () => <Caution title="Vacuum">never run or megger a compressor in a vacuum: it arcs.</Caution>;

/** Only where the gas burns. */
export function Flammable({ refrigerant }: { refrigerant: string }) {
  if (!isFlammable(refrigerant)) return null;
  return (
    <Caution title="Flammable gas">
      {refrigerant} burns. No corona detector, no flame, no ordinary pump or machine. Ventilate, earth, keep sparks
      away; stop when the detector alarms at 20 to 25 % of the lower limit.
    </Caution>
  );
}

/** Stands under every step with a caution. */
export const Rules = () => (
  <p className={css['source']}>Local codes, the maker’s instructions and licensed practice rule.</p>
);
