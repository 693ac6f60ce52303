import { expect } from 'vitest'

const bytesOf = ({ buffer, byteOffset, byteLength }: ArrayBufferView) => new Uint8Array(buffer, byteOffset, byteLength)

/**
 * Columns of the same bytes are equal: said at once, where `toEqual` asks number by number, which for a long route takes longer than to forecast it. Of others, and
 * how they differ, it asks as ever.
 */
expect.addEqualityTesters([
  (one, other) =>
    ArrayBuffer.isView(one) &&
    ArrayBuffer.isView(other) &&
    one.constructor === other.constructor &&
    Buffer.compare(bytesOf(one), bytesOf(other)) === 0
      ? true
      : undefined,
])
