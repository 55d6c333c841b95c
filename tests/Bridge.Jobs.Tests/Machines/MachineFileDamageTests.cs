using System.Text;
using CsCheck;

namespace Bridge.Jobs.Tests;

public sealed class MachineFileDamageTests
{
    public static TheoryData<string> Examples => [.. ExampleMachines.Names];

    [Theory, MemberData(nameof(Examples))]
    public void Every_truncation_is_a_machine_or_a_refusal(string name)
    {
        var bytes = File.ReadAllBytes(ExampleMachines.PathOf(name));

        for (var length = 0; length < bytes.Length; length++) ReadOrRefuse(bytes.AsSpan(0, length));
    }

    [Theory, MemberData(nameof(Examples))]
    public void Random_damage_is_a_machine_or_a_refusal(string name)
    {
        var bytes = File.ReadAllBytes(ExampleMachines.PathOf(name));
        var damage = Gen.Select(Gen.Int[0, bytes.Length - 1], Gen.Byte).Array[1, 8];

        damage.Sample(
            changes =>
            {
                var damaged = bytes.ToArray();
                foreach (var (at, value) in changes) damaged[at] = value;
                ReadOrRefuse(damaged);
            },
            seed: "0001machines1", iter: 1500, threads: 1);
    }

    [Fact]
    public void Any_mix_of_the_words_of_a_file_is_a_machine_or_a_refusal()
    {
        string[] words =
        [
            "[", "]", "[[", "]]", "{", "}", "=", ".", ",", "\"", "'", "\n", "\r\n", "#", " ", "axes", "x", "heads", "a", "cells", "name", "link",
            "16", "-0.5", "1e999", "nan", "inf", "true", "1979-05-27", "99999999999999999999", "\"min\"", "\\u0000", "\"\"\"", "é", "\0",
        ];

        Gen.Int[0, words.Length - 1].Select(i => words[i]).Array[0, 40].Sample(
            mix => ReadOrRefuse(Encoding.UTF8.GetBytes(string.Concat(mix))),
            seed: "0001machines2", iter: 5000, threads: 1);
    }

    [Fact]
    public void Any_bytes_at_all_are_a_machine_or_a_refusal() =>
        Gen.Byte.Array[0, 200].Sample(bytes => ReadOrRefuse(bytes), seed: "0001machines3", iter: 3000, threads: 1);

    [Theory]
    [InlineData("a=[")]
    [InlineData("a={a=")]
    [InlineData("a.")]
    [InlineData("[a.")]
    [InlineData("[x]\n")]
    [InlineData("\"")]
    public void A_file_of_one_thing_repeated_to_the_limit_is_refused(string piece)
    {
        var text = string.Concat(Enumerable.Repeat(piece, MachineFile.MaxBytes / piece.Length));

        Assert.Throws<RefusedException>(() => MachineFile.Parse(Encoding.UTF8.GetBytes(text), "m.toml"));
    }

    [Fact]
    public void A_long_table_name_above_thousands_of_keys_is_refused()
    {
        var name = string.Concat(Enumerable.Repeat("a.", 14_000));
        var keys = string.Concat(Enumerable.Range(0, 4_000).Select(i => $"k{i}=1\n"));

        Assert.Contains(MachineFileMistakeTests.Refusals($"[{name}a]\n{keys}"), r => r.Found == "a key of 28001 characters");
    }

    private static void ReadOrRefuse(ReadOnlySpan<byte> bytes)
    {
        try
        {
            Assert.NotEmpty(MachineFile.Parse(bytes, "m.toml").Name);
        }
        catch (RefusedException refused)
        {
            Assert.NotEmpty(refused.Refusals);
            Assert.All(refused.Refusals, refusal => Assert.StartsWith("m.toml", refusal.Place, StringComparison.Ordinal));
        }
    }
}
