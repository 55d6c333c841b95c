using System.Buffers.Binary;
using System.Globalization;
using System.Text;

namespace Fuzz.Tests;

/// <summary>Small changes to bytes, as damage, mistakes and malice make them.</summary>
internal sealed class Mutation(Random random, IReadOnlyList<byte[]> corpus, IReadOnlyList<byte[]> words)
{
    private const int MostBytes = 4096;
    private static readonly byte[] TellingOctets = [0, 1, 3, 7, 8, 15, 16, 0x7D, 0x7E, 0x7F, 0x80, 0xFE, 0xFF];
    private static readonly uint[] TellingNumbers =
        [0, 1, 0x7F, 0x80, 0xFF, 0x100, 0xFFF, 0x1000, 0x7FFF, 0x8000, 0xFFFF, 0x10000, 0x7FFFFFFF, 0x80000000, 0xFFFFFFFF];
    private static readonly string[] TellingTexts =
        ["0", "-1", "1e999", "nan", "0.0000001", "256", "4096", "4097", "65536", "99999999999999999999", "\"\"", "[]"];

    /// <summary>One of the corpus, changed up to eight times; now and then nothing but noise.</summary>
    public byte[] Make()
    {
        if (random.Next(50) == 0)
            return Noise(random.Next(200));
        var bytes = Any(corpus);
        for (var changes = random.Next(9); changes > 0; changes--)
            bytes = Change(bytes);
        return bytes.Length > MostBytes ? bytes[..MostBytes] : bytes;
    }

    private byte[] Change(byte[] bytes)
    {
        var at = random.Next(bytes.Length + 1);
        var length = random.Next(1 + Math.Min(bytes.Length - at, random.Next(4) == 0 ? 64 : 8));
        return random.Next(12) switch
        {
            0 => Overwrite(bytes, at, [(byte)(bytes.ElementAtOrDefault(at) ^ 1 << random.Next(8))]),
            1 => Overwrite(bytes, at, [Any(TellingOctets)]),
            2 => Overwrite(bytes, at, BigEndian(Any(TellingNumbers), random.Next(2) == 0 ? 2 : 4)),
            3 => Overwrite(bytes, at, Noise(length)),
            4 => [.. bytes[..at], .. bytes[(at + length)..]],
            5 => [.. bytes[..at], .. Noise(length), .. bytes[at..]],
            6 => [.. bytes[..at], .. bytes[at..(at + length)], .. bytes[at..]],
            7 => bytes[..at],
            8 => [.. bytes[..at], .. Piece(Any(corpus)), .. bytes[(at + length)..]],
            9 => [.. bytes[..at], .. Enumerable.Repeat(Any(TellingOctets), random.Next(80)), .. bytes[at..]],
            10 => ChangeNumber(bytes),
            _ => words.Count == 0 ? bytes : [.. bytes[..at], .. Any(words), .. bytes[at..]],
        };
    }

    // A number written in digits.
    private byte[] ChangeNumber(byte[] bytes)
    {
        var digits = Enumerable.Range(0, bytes.Length).Where(at => char.IsAsciiDigit((char)bytes[at])).ToArray();
        if (digits.Length == 0)
            return bytes;
        var from = Any(digits);
        var to = from;
        while (to < bytes.Length && char.IsAsciiDigit((char)bytes[to]))
            to++;
        var number = random.Next(2) == 0 ? Any(TellingTexts) : random.Next(10_000).ToString(CultureInfo.InvariantCulture);
        return [.. bytes[..from], .. Encoding.ASCII.GetBytes(number), .. bytes[to..]];
    }

    private static byte[] Overwrite(byte[] bytes, int at, ReadOnlySpan<byte> by)
    {
        var changed = bytes.ToArray();
        by[..Math.Min(by.Length, bytes.Length - at)].CopyTo(changed.AsSpan(at));
        return changed;
    }

    private byte[] Piece(byte[] bytes)
    {
        var at = random.Next(bytes.Length + 1);
        return bytes[at..(at + random.Next(bytes.Length - at + 1))];
    }

    private byte[] Noise(int length)
    {
        var noise = new byte[length];
        random.NextBytes(noise);
        return noise;
    }

    private static byte[] BigEndian(uint number, int length)
    {
        var octets = new byte[4];
        BinaryPrimitives.WriteUInt32BigEndian(octets, number);
        return octets[^length..];
    }

    private T Any<T>(IReadOnlyList<T> choices) => choices[random.Next(choices.Count)];
}
