import type { Route } from 'next';
import Link from 'next/link';
import type { ComponentProps } from 'react';
import { cx } from './cx.ts';
import css from './button.module.css';

export interface ButtonLinkProps extends Omit<ComponentProps<typeof Link>, 'href'> {
  readonly href: Route;
  readonly kind?: 'main' | 'plain';
}

/** Leads to another page and looks like a button: for the next step of a task. */
export function ButtonLink({ kind = 'plain', className, ...rest }: ButtonLinkProps) {
  return <Link {...rest} className={cx(css['button'], className)} data-kind={kind} />;
}
