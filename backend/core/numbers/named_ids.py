"""Ids made from names, so that phones without signal make the same one."""

ALL = 0xFFFFFFFF
HEX = "0123456789abcdef"


def named_id(space, name):
    """Make the UUIDv5 of a name within an id, as text.

    Takes: space, a UUID as text; name, of ASCII characters.
    Source: RFC 9562, section 5.5; SHA-1: FIPS 180-4, section 6.1.
    Example: named_id("6ba7b810-9dad-11d1-80b4-00c04fd430c8", "www.example.com")
    == "2ed6657d-e927-568b-95e1-2665a8aea6a2"
    """
    digits = space.replace("-", "")
    octets = [int(digits[at : at + 2], 16) for at in range(0, 32, 2)] + [ord(mark) for mark in name]
    words = _sha1(octets)[:4]
    words[1] = words[1] & 0xFFFF0FFF | 0x5000
    words[2] = words[2] & 0x3FFFFFFF | 0x80000000
    text = "".join([_in_hex(word) for word in words])
    return "-".join([text[:8], text[8:12], text[12:16], text[16:20], text[20:]])


def _in_hex(word):
    return "".join([HEX[word >> shift & 15] for shift in range(28, -1, -4)])


def _sha1(octets):
    state = [0x67452301, 0xEFCDAB89, 0x98BADCFE, 0x10325476, 0xC3D2E1F0]
    bits = 8 * len(octets)
    padded = octets + [128] + [0] * ((55 - len(octets)) % 64)
    padded += [bits >> shift & 255 for shift in range(56, -1, -8)]
    for start in range(0, len(padded), 64):
        mixed = _rounds(_schedule(padded[start : start + 64]), state)
        state = [(one + other) & ALL for one, other in zip(state, mixed)]
    return state


def _schedule(block):
    words = [
        block[at] << 24 | block[at + 1] << 16 | block[at + 2] << 8 | block[at + 3] for at in range(0, 64, 4)
    ]
    for at in range(16, 80):
        words.append(_turned(words[at - 3] ^ words[at - 8] ^ words[at - 14] ^ words[at - 16], 1))
    return words


def _rounds(words, state):
    a, b, c, d, e = state
    for at, word in enumerate(words):
        if at < 20:
            mix, constant = b & c | (b ^ ALL) & d, 0x5A827999
        elif at < 40:
            mix, constant = b ^ c ^ d, 0x6ED9EBA1
        elif at < 60:
            mix, constant = b & c | b & d | c & d, 0x8F1BBCDC
        else:
            mix, constant = b ^ c ^ d, 0xCA62C1D6
        a, b, c, d, e = (_turned(a, 5) + mix + e + constant + word) & ALL, a, _turned(b, 30), c, d
    return [a, b, c, d, e]


def _turned(word, by):
    return (word << by | word >> 32 - by) & ALL
