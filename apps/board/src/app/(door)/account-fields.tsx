'use client';
import { TextField } from '../../ui/text-field.tsx';
import { PASSWORD_MIN } from './use-door.ts';

export interface AccountFieldsProps {
  readonly errors: Readonly<Record<string, string>>;
  /** The address an invitation was sent to: it cannot be another. */
  readonly email?: string | undefined;
}

export function EmailField({ errors, email }: AccountFieldsProps) {
  return (
    <TextField
      id="email"
      name="email"
      label="E-mail"
      type="email"
      autoComplete="username"
      defaultValue={email}
      readOnly={email !== undefined}
      hint={email === undefined ? undefined : 'The address the invitation was sent to.'}
      error={errors['email']}
    />
  );
}

export function NewPassword({ errors }: Pick<AccountFieldsProps, 'errors'>) {
  return (
    <TextField
      id="password"
      name="password"
      label="Password"
      type="password"
      hint={`At least ${PASSWORD_MIN} characters. A short sentence is good.`}
      autoComplete="new-password"
      maxLength={128}
      error={errors['password']}
    />
  );
}

/** Name, e-mail and a new password. */
export function NewAccountFields(props: AccountFieldsProps) {
  return (
    <>
      <TextField
        id="name"
        name="name"
        label="Your name"
        autoComplete="name"
        maxLength={120}
        error={props.errors['name']}
      />
      <EmailField {...props} />
      <NewPassword errors={props.errors} />
    </>
  );
}

export function KnownAccountFields(props: AccountFieldsProps) {
  return (
    <>
      <EmailField {...props} />
      <TextField
        id="password"
        name="password"
        label="Password"
        type="password"
        autoComplete="current-password"
        error={props.errors['password']}
      />
    </>
  );
}
