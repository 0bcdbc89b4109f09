import { Skeleton } from '../../../ui/skeleton.tsx';

/**
 * For the screens whose address always exists. Below the frame on purpose: what the frame decides (a stranger, no
 * contractor) still answers with a real redirect. The records beside this folder have none: with the first line of a
 * placeholder the answer has begun with 200, and one that does not exist could no longer answer 404.
 */
export default function Loading() {
  return <Skeleton label="Loading" />;
}
