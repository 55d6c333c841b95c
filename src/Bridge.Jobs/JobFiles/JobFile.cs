using System.Buffers.Binary;
using System.IO.Hashing;

namespace Bridge.Jobs;

/// <summary>A job as it is kept: an image with the geometry and the machine that it was planned for. JOB-FORMAT.md has every bit.</summary>
/// <param name="Grid">The grid that it was planned for.</param>
/// <param name="Machine">The digest of the machine file that it was planned with.</param>
/// <param name="Image">Its records.</param>
public sealed record JobFile(Grid Grid, MachineDigest Machine, Image Image)
{
    /// <summary>The format version that is written, and the only one that is read.</summary>
    public const int FormatVersion = 1;

    private const int HeaderBytes = 52;
    private const int CheckBytes = 4;

    /// <summary>Bytes of the signature that a job file begins with: 8.</summary>
    public static int SignatureBytes => Signature.Length;

    // Text-mode transfers change one of the last three octets, and a seven-bit line the first.
    private static ReadOnlySpan<byte> Signature => [0xB7, (byte)'J', (byte)'O', (byte)'B', (byte)'\r', (byte)'\n', 0x1A, (byte)'\n'];

    /// <summary>Whether some bytes start as a job file does.</summary>
    public static bool HasSignature(ReadOnlySpan<byte> bytes) => bytes.StartsWith(Signature);

    /// <summary>Its bytes.</summary>
    public byte[] ToBytes()
    {
        var bytes = new byte[HeaderBytes + Image.Bytes.Length + CheckBytes];
        Signature.CopyTo(bytes);
        bytes[8] = FormatVersion;
        bytes[9] = (byte)Image.Width.AxisBits;
        BinaryPrimitives.WriteUInt16BigEndian(bytes.AsSpan(10), (ushort)Grid.X);
        BinaryPrimitives.WriteUInt16BigEndian(bytes.AsSpan(12), (ushort)Grid.Y);
        BinaryPrimitives.WriteUInt16BigEndian(bytes.AsSpan(14), (ushort)Grid.Layers);
        Machine.ToBytes().CopyTo(bytes, 16);
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(48), (uint)Image.Bytes.Length);
        Image.Bytes.Span.CopyTo(bytes.AsSpan(HeaderBytes));
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(bytes.Length - CheckBytes), Crc32.HashToUInt32(bytes.AsSpan(..^CheckBytes)));
        return bytes;
    }

    /// <summary>Reads a job file.</summary>
    /// <param name="bytes">The whole file.</param>
    /// <param name="place">Its name, for a refusal.</param>
    /// <exception cref="RefusedException">Not a job file, another version, damaged, cut short or extended.</exception>
    public static JobFile Parse(ReadOnlySpan<byte> bytes, string place)
    {
        const string PlanAgain = "Plan the job again, or fetch the file again.";
        if (bytes.IsEmpty)
            throw new RefusedException(place, "an empty file, without the signature of a job", "a job file as bridge plan writes it", PlanAgain);
        if (!HasSignature(bytes))
            throw new RefusedException(place, "bytes without the signature of a job", "a job file as bridge plan writes it",
                "Give a job file; for the raw bytes of a store say --raw. Those of a layout only check, explain and sheet can read, with --layout.");
        if (bytes.Length < HeaderBytes + CheckBytes)
            throw new RefusedException(place, $"{bytes.Length} bytes", $"at least {HeaderBytes + CheckBytes} bytes", $"The file is cut short. {PlanAgain}");
        if (bytes[8] != FormatVersion)
            throw new RefusedException($"{place}, byte 8", $"format version {bytes[8]}", $"version {FormatVersion}",
                "Plan the job again with this version of the program.");
        var length = BinaryPrimitives.ReadUInt32BigEndian(bytes[48..]);
        if (length != (uint)(bytes.Length - HeaderBytes - CheckBytes))
            throw new RefusedException($"{place}, byte 48", $"an image length of {length} in a file of {bytes.Length} bytes",
                $"{bytes.Length - HeaderBytes - CheckBytes}", $"The file is cut short, extended or damaged. {PlanAgain}");
        var check = BinaryPrimitives.ReadUInt32BigEndian(bytes[^CheckBytes..]);
        var expected = Crc32.HashToUInt32(bytes[..^CheckBytes]);
        if (check != expected)
            throw new RefusedException($"{place}, byte {bytes.Length - CheckBytes}", $"a CRC-32 of {check:X8}", $"{expected:X8}, the bytes' own",
                $"A bit is damaged. {PlanAgain}");
        return Whole(bytes, place);
    }

    /// <summary>Reads a job file from disk.</summary>
    /// <exception cref="RefusedException">As <see cref="Parse"/>, or it cannot be read.</exception>
    public static JobFile Read(string path) => Parse(InputFile.ReadAll(path, Image.LargestBytes + HeaderBytes + CheckBytes), path);

    private static JobFile Whole(ReadOnlySpan<byte> bytes, string place)
    {
        if (!RecordWidth.TryFrom(bytes[9], out var width))
            throw new RefusedException($"{place}, byte 9", $"{bytes[9]} axis bits", "4, 8 or 12", "Plan the job again.");
        var grid = new Grid(
            BinaryPrimitives.ReadUInt16BigEndian(bytes[10..]),
            BinaryPrimitives.ReadUInt16BigEndian(bytes[12..]),
            BinaryPrimitives.ReadUInt16BigEndian(bytes[14..]));
        if (grid.X < 1 || grid.X > width.Places || grid.Y < 1 || grid.Y > width.Places || grid.Layers is < 1 or > Grid.MostLayers)
            throw new RefusedException($"{place}, byte 10", $"a grid of {grid}",
                $"1 to {width.Places} cells along X and Y, 1 to {Grid.MostLayers} layers", "Plan the job again.");
        var image = Image.Parse(width, bytes[HeaderBytes..^CheckBytes], $"{place}, image");
        if (image.Bytes.Length != bytes.Length - HeaderBytes - CheckBytes)
            throw new RefusedException($"{place}, image byte {image.Bytes.Length}", "bytes behind the end", "none in a job file", "Plan the job again.");
        return new JobFile(grid, MachineDigest.From(bytes.Slice(16, MachineDigest.Bytes)), image);
    }
}
