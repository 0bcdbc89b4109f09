/**
 * Every command there is, with the permission it needs. The api makes a route of each, the phone sends them in an
 * envelope, and casework holds one function per kind: the three cannot drift apart.
 */
import * as z from 'zod';
import type { Permission } from '../access.ts';
import { Id, instantText } from '../primitives.ts';
import * as desk from './desk.ts';
import * as entries from './entries.ts';
import * as field from './field.ts';
import * as house from './house.ts';
import * as keeper from './keeper.ts';
import * as manager from './manager.ts';
import * as places from './places.ts';
import * as recalls from './recalls.ts';
import * as store from './store.ts';
import * as shop from './shop.ts';

export * from './desk.ts';
export * from './entries.ts';
export * from './field.ts';
export * from './house.ts';
export * from './keeper.ts';
export * from './manager.ts';
export * from './places.ts';
export * from './recalls.ts';
export * from './store.ts';
export * from './shop.ts';

interface CommandKind<Body extends z.ZodType> {
  readonly body: Body;
  readonly permission: Permission;
}
const kind = <Body extends z.ZodType>(permission: Permission, body: Body): CommandKind<Body> => ({ body, permission });

export const COMMANDS = {
  'take-call': kind('call.take', desk.TakeCall),
  'register-equipment': kind('call.take', entries.RegisterEquipment),
  'record-past-additions': kind('call.take', entries.RecordPastAdditions),
  'take-back-row': kind('import.run', entries.TakeBackRow),
  'place-visit': kind('visit.place', desk.PlaceVisit),
  'unplace-visit': kind('visit.place', desk.UnplaceVisit),
  'register-person': kind('people.manage', desk.RegisterPerson),
  'end-certificate': kind('people.manage', desk.EndCertificate),
  'correct-certificate': kind('people.manage', desk.CorrectCertificate),
  'deactivate-person': kind('people.manage', desk.DeactivatePerson),
  'reactivate-person': kind('people.manage', desk.ReactivatePerson),
  'register-instrument': kind('instrument.register', desk.RegisterInstrument),
  'register-cylinder': kind('cylinder.register', desk.RegisterCylinder),
  'record-transfer': kind('cylinder.handle', shop.RecordTransfer),
  'record-air-check': kind('cylinder.handle', shop.RecordAirCheck),
  'record-delivery': kind('cylinder.handle', store.RecordDelivery),
  'hand-over': kind('cylinder.handle', store.HandOver),
  'weigh-cylinder': kind('cylinder.handle', store.WeighCylinder),
  'correct-tare': kind('cylinder.handle', store.CorrectTare),
  'open-recall': kind('attention.settle', recalls.OpenRecall),
  'recall-gas': kind('attention.settle', recalls.RecallGas),
  'settle-recall-item': kind('attention.settle', recalls.SettleRecallItem),
  'close-recall': kind('attention.settle', recalls.CloseRecall),
  'release-cylinder': kind('cylinder.handle', recalls.ReleaseCylinder),
  'record-shipment': kind('cylinder.handle', keeper.RecordShipment),
  'record-acceptance': kind('cylinder.handle', keeper.RecordAcceptance),
  'mark-lost': kind('cylinder.handle', keeper.MarkLost),
  'mark-found': kind('cylinder.handle', keeper.MarkFound),
  'return-cylinder': kind('cylinder.handle', keeper.ReturnCylinder),
  'scrap-cylinder': kind('cylinder.handle', keeper.ScrapCylinder),
  'take-back': kind('cylinder.handle', keeper.TakeBack),
  'settle-attention': kind('attention.settle', desk.SettleAttention),
  'mark-notices-read': kind('notice.tick', desk.MarkNoticesRead),
  'describe-site': kind('call.take', places.DescribeSite),
  'describe-circuit': kind('call.take', places.DescribeCircuit),
  'set-full-charge': kind('call.take', places.SetFullCharge),
  'change-settings': kind('settings.change', house.ChangeSettings),
  'register-location': kind('location.register', house.RegisterLocation),
  'change-location': kind('location.register', house.ChangeLocation),
  'change-instrument': kind('instrument.register', house.ChangeInstrument),
  'retire-instrument': kind('instrument.register', house.RetireInstrument),
  'record-calibration': kind('instrument.register', house.RecordCalibration),
  'set-price': kind('price.set', manager.SetPrice),
  'withdraw-price': kind('price.set', manager.WithdrawPrice),
  'bill-gas': kind('gas.bill', manager.BillGas),
  'undo-bill': kind('gas.bill', manager.UndoBill),
  'plan-replacement': kind('replacement.plan', manager.PlanReplacement),
  'withdraw-replacement': kind('replacement.plan', manager.WithdrawReplacement),
  'record-owner-told': kind('visit.record', desk.LinkOwnerTold),
  arrive: kind('visit.record', field.Arrive),
  'record-safety': kind('visit.record', field.RecordSafety),
  'record-tool-check': kind('visit.record', field.RecordToolCheck),
  'record-readings': kind('visit.record', field.RecordReadings),
  'record-look': kind('visit.record', field.RecordLook),
  'record-leak-point': kind('visit.record', field.RecordLeakPoint),
  'record-plate': kind('visit.record', field.RecordPlate),
  'record-consent': kind('visit.record', field.RecordConsent),
  'record-recovery': kind('visit.record', field.RecordRecovery),
  'record-repair': kind('visit.record', field.RecordRepair),
  'record-verification': kind('visit.record', field.RecordVerification),
  'record-vacuum': kind('visit.record', field.RecordVacuum),
  'record-charge': kind('visit.record', field.RecordCharge),
  'record-service-loss': kind('visit.record', field.RecordServiceLoss),
  'record-inspection': kind('visit.record', field.RecordInspection),
  'state-normal-operation': kind('visit.record', field.StateNormalOperation),
  'correct-weighing': kind('visit.record', field.CorrectWeighing),
  'finish-visit': kind('visit.record', field.FinishVisit),
  'withdraw-command': kind('visit.record', field.WithdrawCommand),
} as const;
export type CommandName = keyof typeof COMMANDS;
export type CommandBody<K extends CommandName> = z.output<(typeof COMMANDS)[K]['body']>;
export const COMMAND_NAMES = Object.keys(COMMANDS) as CommandName[];
export const isCommandName = (name: string): name is CommandName => Object.hasOwn(COMMANDS, name);

/** What a desk sends to `POST /v1/commands/<kind>`; the command id is the Idempotency-Key. */
export const requestOf = <K extends CommandName>(name: K) =>
  z
    .strictObject({
      happenedAt: instantText('Time').optional().meta({ description: 'When it happened; now, unless said.' }),
      dependsOn: z.array(Id).max(50).optional(),
      body: COMMANDS[name].body,
    })
    .meta({ id: `Request.${name}` });

/** What a device sends. The hash of the envelope as received decides whether it is the same command again. */
export const Envelope = z.strictObject({
  id: Id,
  schema: z.string().regex(/^[a-z-]{1,60}$/, { error: 'Command: this office knows none by that name.' }),
  device: Id,
  deviceSeq: z.int().nonnegative(),
  happenedAt: instantText('Time'),
  dependsOn: z.array(Id).max(50).default([]),
  body: z.unknown(),
});
export type Envelope = z.output<typeof Envelope>;

/** A batch from a device. Envelopes are read one by one, so that a bad one never blocks the rest. */
export const Push = z
  .strictObject({
    sentAt: instantText('Sent at').meta({ description: 'The device’s clock as it sends; a wrong clock is noticed.' }),
    device: Id,
    commands: z.array(z.unknown()).max(500, { error: 'Commands: at most 500 in one push.' }),
  })
  .meta({ id: 'Push' });
