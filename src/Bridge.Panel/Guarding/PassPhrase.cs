using System.Security.Cryptography;
using System.Text;
using Bridge.Jobs;

namespace Bridge.Panel;

/// <summary>The phrase that a page beyond this computer gives for the key. Wrong ones are slowed down, each page's and all together.</summary>
/// <param name="phrase">12 to 200 characters.</param>
/// <param name="time">Tells when the next one may be tried.</param>
public sealed class PassPhrase(string phrase, TimeProvider time)
{
    /// <summary>The shortest that is taken.</summary>
    public const int Shortest = 12;

    /// <summary>The longest that is taken.</summary>
    public const int Longest = 200;

    private const int MostBytes = 4096;
    private const int FreeTries = 5;

    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    private readonly Lock _door = new();
    private readonly byte[] _digest = Digest(phrase);
    private int _wrong;
    private long _wrongAt;

    /// <summary>Reads it from the first line of a file.</summary>
    /// <exception cref="RefusedException">The file cannot be read, or its first line is too short or too long.</exception>
    public static PassPhrase Read(string path, TimeProvider time)
    {
        var text = Encoding.UTF8.GetString(InputFile.ReadAll(path, MostBytes));
        var phrase = text.Split('\n')[0].Trim();
        return phrase.Length is >= Shortest and <= Longest
            ? new PassPhrase(phrase, time)
            : throw new RefusedException(path, $"a first line of {phrase.Length} characters", $"{Shortest} to {Longest} characters",
                "Write a phrase of several words into it that nobody would guess.");
    }

    /// <summary>Whether the phrase is right; null where it was not looked at, because too many wrong ones came before.</summary>
    public bool? Try(string? text)
    {
        lock (_door)
        {
            if (_wrong >= FreeTries && time.GetElapsedTime(_wrongAt) < Pause)
                return null;
            if (text is { Length: <= Longest } && CryptographicOperations.FixedTimeEquals(Digest(text), _digest))
            {
                _wrong = 0;
                return true;
            }

            (_wrong, _wrongAt) = (_wrong + 1, time.GetTimestamp());
            return false;
        }
    }

    private static byte[] Digest(string text) => SHA256.HashData(Encoding.UTF8.GetBytes(text));
}
