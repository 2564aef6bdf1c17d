import { describe, expect, it } from 'vitest';
import { hashOf, mainScreenOf, routeOf } from '../../../src/view/shell/route';

describe('routes', () => {
  it('come back from their addresses', () => {
    for (const id of ['quay-steps', 'own/1 2%', 'ä']) {
      expect(routeOf(hashOf('phrases', id))).toEqual({ screen: 'phrases', id });
    }
    expect(routeOf(hashOf('log'))).toEqual({ screen: 'log', id: undefined });
  });

  it('are the practise screen without an address', () => {
    for (const none of ['', '#', '#/']) expect(routeOf(none).screen).toBe('practise');
    expect(routeOf('#log/%E0%A4%A')).toEqual({ screen: 'log', id: '%E0%A4%A' });
  });

  it.each(['#nowhere/3', '#kit/nonsense', '#practise/3', '#Log', '#unknown'])(
    'lead nowhere by %s, and say which address that was',
    (hash) => {
      expect(routeOf(hash)).toEqual({ screen: 'unknown', id: hash.slice(1) });
      expect(mainScreenOf('unknown')).toBeUndefined();
    },
  );
});
