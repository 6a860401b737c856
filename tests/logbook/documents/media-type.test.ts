import { describe, expect, test } from 'vitest';
import { detectMediaType } from '../../../src/logbook/documents/media-type.ts';

const bytes = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

describe('paperType', () => {
  test.each([
    ['a PDF', '%PDF-1.7\n', 'application/pdf'],
    ['a PNG', '\u0089PNG\r\n\u001a\n\0\0\0', 'image/png'],
    ['a JPEG', '\u00ff\u00d8\u00ff\u00e0', 'image/jpeg'],
    ['a WebP', 'RIFF\0\0\0\0WEBPVP8 ', 'image/webp'],
    ['a photo of a phone', '\0\0\0\u0018ftypheic', 'image/heic'],
    ['plain text', 'Static level 41 ft\r\n', 'text/plain'],
    ['a program', '\u007fELF\u0002', undefined],
    ['a program of another system', 'MZ\u0090\0', undefined],
    ['a page', '  <!doctype html><script>', undefined],
    ['a drawing that can hold a script', '<svg xmlns="http://www.w3.org/2000/svg">', undefined],
    ['a script', '#!/bin/sh\n', undefined],
    ['a packed folder', 'PK\u0003\u0004', undefined],
    ['nothing', '', undefined],
  ])('%s', (_, head, type) => {
    expect(detectMediaType(bytes(head))).toBe(type);
  });
});
