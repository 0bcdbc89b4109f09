/** Every control of a form, whatever the step: listed, changed and read back by what is on the screen. */
import type { Page } from '@playwright/test';

/** One thing that can be entered. */
export interface Control {
  /** Question and answer, as `Unit of Gross before: kg`; a second one of the same name gets a number. */
  readonly key: string;
  readonly kind: 'text' | 'list' | 'tick' | 'answer';
  /** What it is one answer of, when choosing it takes another answer back. */
  readonly oneOf: string | null;
  readonly value: string;
  /** What it reads once something was entered. */
  readonly wanted: string;
}

/**
 * Runs inside the page. Finds every control of the screen; with a key it enters something there and ends the page's
 * means to keep anything before the task is over: what a later task would have written is lost, as with a page closed
 * there and then.
 */
function inPage(key: string | null): Control[] {
  type Found = Control & { enter: () => void };
  const textOf = (element: Element | null | undefined): string =>
    element?.textContent?.trim().replaceAll(/\s+/g, ' ') ?? '';
  const labelOf = (control: HTMLInputElement): string =>
    textOf(control.labels?.[0]) || (control.getAttribute('aria-label') ?? '');
  const groupOf = (element: Element): string => {
    const group = element.closest('fieldset[aria-describedby], fieldset[id], [role="group"]');
    return group?.getAttribute('aria-label') ?? textOf(group?.querySelector('legend'));
  };
  const setText = (control: HTMLElement, value: string): void => {
    const kind = control instanceof HTMLTextAreaElement ? HTMLTextAreaElement : HTMLInputElement;
    Object.getOwnPropertyDescriptor(kind.prototype, 'value')?.set?.call(control, value);
    control.dispatchEvent(new Event('input', { bubbles: true }));
  };
  const ofInput = (control: HTMLInputElement): Found => {
    const group = groupOf(control);
    const named = {
      key: `${group}: ${labelOf(control)}`,
      value: String(control.checked),
      enter: () => control.click(),
    };
    if (control.type === 'radio') return { ...named, kind: 'answer', oneOf: group, wanted: 'true' };
    if (control.type === 'checkbox') return { ...named, kind: 'tick', oneOf: null, wanted: String(!control.checked) };
    const wanted = control.inputMode === 'decimal' ? '37.5' : 'half a word';
    const enter = (): void => setText(control, wanted);
    return { key: labelOf(control), kind: 'text', oneOf: null, value: control.value, wanted, enter };
  };
  const ofSelect = (control: HTMLSelectElement): Found => ({
    key: textOf(control.labels[0]),
    kind: 'list',
    oneOf: null,
    value: control.value,
    wanted: control.options[control.options.length - 1]?.value ?? '',
    enter: () => {
      control.selectedIndex = control.options.length - 1;
      control.dispatchEvent(new Event('change', { bubbles: true }));
    },
  });
  const ofButton = (button: HTMLElement): Found => ({
    key: `${groupOf(button)}: ${textOf(button)}`,
    kind: 'answer',
    oneOf: groupOf(button),
    value: button.getAttribute('aria-pressed') ?? '',
    wanted: 'true',
    enter: () => button.click(),
  });
  const count = new Map<string, number>();
  // A file is chosen in the browser's own window and is kept only when it has been read: photos.spec.ts.
  const controls = 'main :is(input:not([type="file"]), textarea, select, button[aria-pressed])';
  const found = [...document.querySelectorAll<HTMLElement>(controls)]
    .map((control) => {
      if (control instanceof HTMLSelectElement) return ofSelect(control);
      if (control instanceof HTMLButtonElement) return ofButton(control);
      return ofInput(control as HTMLInputElement);
    })
    .map((one) => {
      const times = (count.get(one.key) ?? 0) + 1;
      count.set(one.key, times);
      return times === 1
        ? one
        : { ...one, key: `${one.key} (${times})`, oneOf: one.oneOf && `${one.oneOf} (${times})` };
    });
  if (key !== null) {
    found.find((one) => one.key === key)?.enter();
    Storage.prototype.setItem = () => undefined;
    Storage.prototype.removeItem = () => undefined;
  }
  return found.map(({ key: name, kind, oneOf, value, wanted }) => ({ key: name, kind, oneOf, value, wanted }));
}

export const controlsOf = (page: Page): Promise<Control[]> => page.evaluate(inPage, null);

/** Enters something at a control and closes the page; nothing is kept that was not kept in the same task. */
export async function enterAndClose(page: Page, key: string): Promise<void> {
  await page.evaluate(inPage, key);
  await page.close();
}
