import type { CylinderView } from '@ullage/contracts';
import { KIND_WORDS } from '../../office/cylinder/words.ts';
import { QrCode } from '../../ui/qr-code.tsx';
import css from './cylinder-label.module.css';

/** What is stuck on a cylinder: who it is, what it weighs empty, and a code that opens its page. Never what is in it, which changes. */
export function CylinderLabel({ view, address }: { view: CylinderView; address: string }) {
  const { cylinder, tare, testedMonth } = view;
  return (
    <section className={css['label']} aria-label={`Label of ${cylinder.label ?? cylinder.serial}`}>
      <QrCode text={address} label={`Code of ${address}`} />
      <div>
        <h1>{cylinder.label ?? cylinder.serial}</h1>
        <dl>
          <dt>Serial</dt>
          <dd className="id">{cylinder.serial}</dd>
          <dt>Kind</dt>
          <dd>
            {KIND_WORDS[cylinder.kind]}, {cylinder.specification}
          </dd>
          <dt>Tare</dt>
          <dd>
            {tare.value} {tare.unit}
          </dd>
          <dt>Last test</dt>
          <dd>{testedMonth ?? 'not known'}</dd>
          <dt>Owner</dt>
          <dd>{cylinder.owner ?? 'this firm'}</dd>
        </dl>
        <p>The stamps on the shoulder rule; this label does not replace the marks the carrier asks for.</p>
      </div>
    </section>
  );
}
