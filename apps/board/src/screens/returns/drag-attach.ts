/** Ties rows and weeks, as they stand in the document, to the drag and drop library. */
import {
  draggable,
  dropTargetForElements,
  monitorForElements,
} from '@atlaskit/pragmatic-drag-and-drop/adapter/element-adapter';
import { combine } from '@atlaskit/pragmatic-drag-and-drop/utils/combine';
import { pointerOutsideOfPreview } from '@atlaskit/pragmatic-drag-and-drop/utils/pointer-outside-of-preview';
import { setCustomNativeDragPreview } from '@atlaskit/pragmatic-drag-and-drop/utils/set-custom-native-drag-preview';
import css from './drag.module.css';

/** The pointer over a person's week: the drawing's box, and where in it. */
export interface Hover {
  readonly personId: string;
  readonly box: DOMRect;
  readonly clientX: number;
}
interface Told {
  readonly onStart: (visitId: string) => void;
  readonly onHover: (at: Hover | undefined) => void;
  /** Dropped on a week, or let go elsewhere. */
  readonly onEnd: (at: Hover | undefined) => void;
}
interface Where {
  readonly dropTargets: readonly { readonly element: Element; readonly data: Record<string | symbol, unknown> }[];
  readonly input: { readonly clientX: number };
}

function hoverOf({ dropTargets, input }: Where): Hover | undefined {
  const [target] = dropTargets;
  const personId = target?.data['personId'];
  if (!target || typeof personId !== 'string') return undefined;
  return { personId, box: target.element.getBoundingClientRect(), clientX: input.clientX };
}
const visitOf = ({ visitId }: Record<string, unknown>): string => (typeof visitId === 'string' ? visitId : '');

/** The week of a person in the document. */
export const weekOfPerson = (personId: string): HTMLElement | null =>
  document.querySelector(`[data-person="${CSS.escape(personId)}"]`);

function row(visitId: string): (() => void)[] {
  const element = document.getElementById(`row-${visitId}`);
  if (!element) return [];
  return [
    draggable({
      element,
      getInitialData: () => ({ visitId }),
      onGenerateDragPreview: ({ nativeSetDragImage }) =>
        setCustomNativeDragPreview({
          nativeSetDragImage,
          getOffset: pointerOutsideOfPreview({ x: '14px', y: '10px' }),
          render: ({ container }) => {
            const chip = document.createElement('div');
            chip.className = css['chip'] ?? '';
            chip.textContent = element.textContent;
            container.append(chip);
          },
        }),
    }),
  ];
}

/** Answers how to untie all of it. */
export function attachDrags(
  { visitIds, personIds }: { visitIds: readonly string[]; personIds: readonly string[] },
  { onStart, onHover, onEnd }: Told,
): () => void {
  const weeks = personIds.flatMap((personId) => {
    const element = weekOfPerson(personId);
    return element ? [dropTargetForElements({ element, getData: () => ({ personId }) })] : [];
  });
  return combine(
    ...visitIds.flatMap(row),
    ...weeks,
    monitorForElements({
      canMonitor: ({ source }) => visitOf(source.data) !== '',
      onDragStart: ({ source }) => onStart(visitOf(source.data)),
      onDropTargetChange: ({ location }) => onHover(hoverOf(location.current)),
      onDrag: ({ location }) => onHover(hoverOf(location.current)),
      onDrop: ({ location }) => onEnd(hoverOf(location.current)),
    }),
  );
}
