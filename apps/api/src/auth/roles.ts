/** What the sign-in library itself must know of the roles: who may invite and manage members. All else is in contracts. */
import type { Role } from '@ullage/contracts';
import { createAccessControl } from 'better-auth/plugins/access';
import { defaultStatements } from 'better-auth/plugins/organization/access';

export const access = createAccessControl(defaultStatements);
const managesMembers = access.newRole({
  member: ['create', 'update', 'delete'],
  invitation: ['create', 'cancel'],
});
const managesNobody = access.newRole({});

/** The library refuses by itself that a manager makes, changes or removes an owner: the owner is its "creator role". */
export const libraryRoles = {
  owner: managesMembers,
  manager: managesMembers,
  dispatcher: managesNobody,
  warehouse: managesNobody,
  technician: managesNobody,
  auditor: managesNobody,
} satisfies Record<Role, typeof managesMembers | typeof managesNobody>;
