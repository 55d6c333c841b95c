using System.Security.Cryptography;

namespace Bridge.Jobs;

/// <summary>SHA-256 (FIPS 180-4) of a machine file's bytes: a job is good for just this machine file.</summary>
public readonly record struct MachineDigest
{
    /// <summary>Bytes of a digest.</summary>
    public const int Bytes = 32;

    private readonly string? _hex;

    private MachineDigest(string hex) => _hex = hex;

    /// <summary>The digest of a machine file's bytes.</summary>
    public static MachineDigest Of(ReadOnlySpan<byte> file) => new(Convert.ToHexStringLower(SHA256.HashData(file)));

    /// <summary>The digest held by 32 bytes.</summary>
    public static MachineDigest From(ReadOnlySpan<byte> digest) =>
        digest.Length == Bytes ? new(Convert.ToHexStringLower(digest)) : throw new ArgumentException("A digest is 32 bytes.", nameof(digest));

    /// <summary>Its 32 bytes.</summary>
    public byte[] ToBytes() => Convert.FromHexString(ToString());

    /// <summary>64 hexadecimal digits.</summary>
    public override string ToString() => _hex ?? new string('0', 2 * Bytes);
}
