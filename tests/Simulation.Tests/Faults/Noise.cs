namespace Simulation.Tests;

/// <summary>What a line does to frames on their way, each by its chance for a frame.</summary>
internal sealed record Noise
{
    public static Noise None { get; } = new();

    /// <summary>One bit is flipped.</summary>
    public double Flip { get; init; }

    /// <summary>Some octets in a row become any others.</summary>
    public double Burst { get; init; }

    /// <summary>An octet is lost.</summary>
    public double LostOctet { get; init; }

    /// <summary>An octet comes twice.</summary>
    public double DoubledOctet { get; init; }

    /// <summary>The frame is lost.</summary>
    public double Drop { get; init; }

    /// <summary>The frame comes twice.</summary>
    public double Double { get; init; }

    /// <summary>The frame comes once more, much later.</summary>
    public double Echo { get; init; }

    /// <summary>The frame comes late, behind others.</summary>
    public double Late { get; init; }

    /// <summary>The frame is damaged and its check sequence made to match again: no line does that, but a link that checked nothing would see it so.</summary>
    public double Forged { get; init; }

    /// <summary>Noise from a seed: often little, seldom much.</summary>
    public static Noise Of(Random random)
    {
        var most = random.Next(4) switch { 0 => 0, 1 => 0.02, 2 => 0.08, _ => 0.25 };
        double Chance() => random.Next(3) == 0 ? random.NextDouble() * most : 0;
        return most == 0 ? None : new Noise
        {
            Flip = Chance(), Burst = Chance(), LostOctet = Chance(), DoubledOctet = Chance(),
            Drop = Chance(), Double = Chance(), Echo = Chance(), Late = Chance(),
        };
    }
}
