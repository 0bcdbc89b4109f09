/**
 * Solves `matrix x = right` in place by Gauss with partial pivoting; the answer stands in `right`. False for a singular
 * matrix. Rows of a square matrix one after the other.
 */
export function solveLinear(matrix: Float64Array, right: Float64Array): boolean {
  const n = right.length;
  for (let column = 0; column < n; column++) {
    const pivot = pivotRow(matrix, column, n);
    if (!(Math.abs(at(matrix, pivot * n + column)) > 1e-300)) return false;
    if (pivot !== column) swapRows(matrix, right, { a: pivot, b: column });
    eliminateBelow(matrix, right, column);
  }
  for (let row = n - 1; row >= 0; row--) {
    let sum = at(right, row);
    for (let j = row + 1; j < n; j++) sum -= at(matrix, row * n + j) * at(right, j);
    right[row] = sum / at(matrix, row * n + row);
  }
  return true;
}

/** An element that is known to be there. */
export const at = (of: Float64Array, index: number): number => of[index] ?? Number.NaN;

function pivotRow(matrix: Float64Array, column: number, n: number): number {
  let best = column;
  for (let row = column + 1; row < n; row++)
    if (Math.abs(at(matrix, row * n + column)) > Math.abs(at(matrix, best * n + column))) best = row;
  return best;
}

function swapRows(matrix: Float64Array, right: Float64Array, { a, b }: { a: number; b: number }): void {
  const n = right.length;
  for (let j = 0; j < n; j++) {
    const kept = at(matrix, a * n + j);
    matrix[a * n + j] = at(matrix, b * n + j);
    matrix[b * n + j] = kept;
  }
  const kept = at(right, a);
  right[a] = at(right, b);
  right[b] = kept;
}

function eliminateBelow(matrix: Float64Array, right: Float64Array, column: number): void {
  const n = right.length;
  for (let row = column + 1; row < n; row++) {
    const factor = at(matrix, row * n + column) / at(matrix, column * n + column);
    if (factor === 0) continue;
    for (let j = column; j < n; j++)
      matrix[row * n + j] = at(matrix, row * n + j) - factor * at(matrix, column * n + j);
    right[row] = at(right, row) - factor * at(right, column);
  }
}
