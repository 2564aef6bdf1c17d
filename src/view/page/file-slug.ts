/** A title as the beginning of a file's name. @example fileSlug('Quay Steps / 2', 'take') // => 'quay-steps-2' */
export function fileSlug(title: string, otherwise: string): string {
  const slug = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');
  return slug || otherwise;
}
