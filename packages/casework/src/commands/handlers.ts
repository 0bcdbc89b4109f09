import type { CommandBody, CommandName } from '@ullage/contracts';
import type { Case, Received } from '../pipeline/case.ts';
import { recordAirCheck } from './air-check.ts';
import { correctWeighing } from './correct-weighing.ts';
import { recordCharge, recordRecovery, recordServiceLoss } from './gas-moves.ts';
import { describeCircuit, describeSite, setFullCharge } from './describe-place.ts';
import { markNoticesRead } from './notices.ts';
import * as keeper from './keeper.ts';
import * as manage from './manage.ts';
import { recordPastAdditions } from './past-additions.ts';
import { placeVisit, unplaceVisit } from './place-visit.ts';
import { correctCertificate, deactivatePerson, endCertificate, reactivatePerson, registerPerson } from './people.ts';
import { registerCylinder, registerInstrument } from './register.ts';
import { registerEquipment } from './register-equipment.ts';
import { closeRecall, openRecall, recallGas, settleRecallItem } from './recalls.ts';
import { releaseCylinder } from './set-aside.ts';
import { settleAttention } from './settle-attention.ts';
import * as house from './house.ts';
import { correctTare, handOver, recordDelivery, weighCylinder } from './store.ts';
import { recordAcceptance, recordShipment } from './shipments.ts';
import { takeBackRow } from './take-back-row.ts';
import { takeBack } from './take-back.ts';
import { takeCall } from './take-call.ts';
import { recordTransfer } from './transfer.ts';
import * as visit from './visit-facts.ts';
import { withdrawCommand } from './withdraw-command.ts';

export type Handler<K extends CommandName> = (desk: Case, received: Received<CommandBody<K>>) => Promise<void>;

/** One function per command. A command without one does not compile. */
const OF_KIND: { readonly [K in CommandName]: Handler<K> } = {
  'take-call': takeCall,
  'register-equipment': registerEquipment,
  'record-past-additions': recordPastAdditions,
  'take-back-row': takeBackRow,
  'place-visit': placeVisit,
  'unplace-visit': unplaceVisit,
  'register-person': registerPerson,
  'end-certificate': endCertificate,
  'correct-certificate': correctCertificate,
  'deactivate-person': deactivatePerson,
  'reactivate-person': reactivatePerson,
  'register-instrument': registerInstrument,
  'register-cylinder': registerCylinder,
  'record-transfer': recordTransfer,
  'record-air-check': recordAirCheck,
  'record-delivery': recordDelivery,
  'hand-over': handOver,
  'weigh-cylinder': weighCylinder,
  'correct-tare': correctTare,
  'open-recall': openRecall,
  'recall-gas': recallGas,
  'settle-recall-item': settleRecallItem,
  'close-recall': closeRecall,
  'release-cylinder': releaseCylinder,
  'record-shipment': recordShipment,
  'record-acceptance': recordAcceptance,
  'mark-lost': keeper.markLost,
  'mark-found': keeper.markFound,
  'return-cylinder': keeper.returnCylinder,
  'scrap-cylinder': keeper.scrapCylinder,
  'take-back': takeBack,
  'settle-attention': settleAttention,
  'mark-notices-read': markNoticesRead,
  'describe-site': describeSite,
  'describe-circuit': describeCircuit,
  'set-full-charge': setFullCharge,
  'change-settings': house.changeSettings,
  'register-location': house.registerLocation,
  'change-location': house.changeLocation,
  'change-instrument': house.changeInstrument,
  'retire-instrument': house.retireInstrument,
  'record-calibration': house.recordCalibration,
  'set-price': manage.setPrice,
  'withdraw-price': manage.withdrawPrice,
  'bill-gas': manage.billGas,
  'undo-bill': manage.undoBill,
  'plan-replacement': manage.planReplacement,
  'withdraw-replacement': manage.withdrawReplacement,
  'record-owner-told': visit.recordOwnerTold,
  arrive: visit.arrive,
  'record-safety': visit.recordSafety,
  'record-tool-check': visit.recordToolCheck,
  'record-readings': visit.recordReadings,
  'record-look': visit.recordLook,
  'record-leak-point': visit.recordLeakPoint,
  'record-plate': visit.recordPlate,
  'record-consent': visit.recordConsent,
  'record-recovery': recordRecovery,
  'record-repair': visit.recordRepair,
  'record-verification': visit.recordVerification,
  'record-vacuum': visit.recordVacuum,
  'record-charge': recordCharge,
  'record-service-loss': recordServiceLoss,
  'record-inspection': visit.recordInspection,
  'state-normal-operation': visit.stateNormalOperation,
  'correct-weighing': correctWeighing,
  'finish-visit': visit.finishVisit,
  'withdraw-command': withdrawCommand,
};
/** The body was parsed by the schema of the same kind, which is what makes the two fit. */
export const HANDLERS = OF_KIND as { readonly [K in CommandName]: Handler<never> };
