'use client';
import {
  ComboBox as AriaComboBox,
  Button,
  FieldError,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Text,
} from 'react-aria-components';
import { withoutLabel, type FieldTexts } from './field.tsx';
import frame from './field.module.css';
import css from './combo-box.module.css';

export interface Choice {
  readonly id: string;
  readonly text: string;
  /** A second, quieter line: what tells two of the same name apart. */
  readonly note?: string;
}
export interface ComboBoxProps extends FieldTexts {
  readonly choices: readonly Choice[];
  /** Of the field itself, so that a summary can lead to it. */
  readonly id?: string;
  readonly name?: string;
  /** What stands in the field at first: a draft that was kept. */
  readonly text?: string;
  readonly value?: string | null;
  readonly onChange?: (id: string | null) => void;
  /** Typed text that is no choice is kept and told here ("a new customer"). */
  readonly onText?: (text: string) => void;
  readonly empty?: string;
}

function Choices({ empty = 'Nothing matches.' }: { empty?: string | undefined }) {
  return (
    <Popover className={css['pop'] ?? ''} offset={2}>
      <ListBox<Choice> className={css['list'] ?? ''} renderEmptyState={() => <p className={css['none']}>{empty}</p>}>
        {(choice) => (
          <ListBoxItem className={css['item'] ?? ''} textValue={choice.text}>
            <Text slot="label">{choice.text}</Text>
            {choice.note !== undefined && <Text slot="description">{choice.note}</Text>}
          </ListBoxItem>
        )}
      </ListBox>
    </Popover>
  );
}

function Texts({ hint, error }: Pick<FieldTexts, 'hint' | 'error'>) {
  return (
    <>
      {hint !== undefined && (
        <Text slot="description" className={frame['hint'] ?? ''}>
          {hint}
        </Text>
      )}
      <FieldError className={frame['error'] ?? ''}>{error}</FieldError>
    </>
  );
}

/** A list to type into, for more choices than a person wants to scroll. */
export function ComboBox(props: ComboBoxProps) {
  const { label, hint, error, optional = false, choices, id, name, text, value, onChange, onText } = props;
  return (
    <AriaComboBox
      className={frame['field'] ?? ''}
      defaultItems={choices}
      {...(id === undefined ? {} : { id })}
      {...(text === undefined ? {} : { defaultInputValue: text })}
      {...(name === undefined ? {} : { name })}
      {...(value === undefined ? {} : { value })}
      onChange={(key) => onChange?.(key === null ? null : String(key))}
      {...(onText ? { onInputChange: onText, allowsCustomValue: true } : {})}
      isInvalid={Boolean(error)}
      isRequired={!optional}
      validationBehavior="aria"
      allowsEmptyCollection
      menuTrigger="focus"
    >
      <Label className={frame['label'] ?? ''}>
        {label}
        {optional && <span> (optional)</span>}
      </Label>
      <div className={css['box']}>
        <Input className={frame['control'] ?? ''} />
        <Button className={css['open'] ?? ''} aria-label={`Show choices of ${label}`} />
      </div>
      <Texts hint={hint} error={withoutLabel(label, error)} />
      <Choices empty={props.empty} />
    </AriaComboBox>
  );
}
