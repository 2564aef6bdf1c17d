import { describe, expect, it } from 'vitest';
import { hashOf, routeOf } from '../../../src/view/shell/route';

describe('routes', () => {
  it('come back from their addresses', () => {
    for (const id of ['quay-steps', 'own/1 2%', 'ä']) {
      expect(routeOf(hashOf('phrases', id))).toEqual({ screen: 'phrases', id });
    }
    expect(routeOf(hashOf('log'))).toEqual({ screen: 'log', id: undefined });
  });

  it('lead to the practise screen when unknown or damaged', () => {
    expect(routeOf('').screen).toBe('practise');
    expect(routeOf('#nowhere/3')).toEqual({ screen: 'practise', id: undefined });
    expect(routeOf('#log/%E0%A4%A')).toEqual({ screen: 'log', id: '%E0%A4%A' });
  });
});
