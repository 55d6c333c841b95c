using Bridge.Jobs;
using CsCheck;

namespace Bridge.Layouts.Tests;

public class LayoutDecoderTests
{
    private static readonly Machine Plotter = Examples.Machine("cardboard-plotter.toml");

    [Fact]
    public void The_built_in_layout_means_what_the_interpreter_means_whatever_bytes_come()
    {
        var layout = Examples.Layout("built-in-4.toml");
        Gen.Byte.Array[3, 30].Sample(bytes =>
        {
            bytes = [.. bytes.Take(bytes.Length / 3 * 3).Select((octet, index) => index % 3 == 0 ? (byte)(octet % 0xE0) : octet), 0, 0, 0];
            var image = Image.Parse(RecordWidth.Four, bytes.AsSpan(0, End(bytes)), "image");
            var plain = new Interpreter(image, Plotter.Grid);
            var proof = LayoutProof.Of(LayoutImage.Parse(layout, image.Bytes.Span, "image"), Plotter);
            var decoded = new Interpreter(proof.Decoded, Plotter.Grid);
            while (plain.MoveNext() && decoded.MoveNext())
                Assert.Equal(plain.Current with { Index = 0 }, decoded.Current with { Index = 0 });
            Assert.False(decoded.MoveNext());
            Assert.Equal(plain.Fault is null, proof.Proof.IsProved);
        }, iter: 2000);
    }

    [Theory]
    [InlineData("relative-lines.toml")]
    [InlineData("rows-only.toml")]
    [InlineData("square-fills.toml")]
    public void Any_bytes_are_decoded_or_have_a_fault_with_its_record(string name)
    {
        var layout = Examples.Layout(name);
        Gen.Byte.Array[4, 60].Sample(bytes =>
        {
            try
            {
                var faults = LayoutProof.Of(LayoutImage.Parse(layout, bytes, "image"), Plotter).Proof.Faults;
                Assert.All(faults, fault => Assert.Matches("^(record [0-9]+ |image|layer)", fault.Refusal.Place));
            }
            catch (RefusedException refused)
            {
                Assert.Contains("not blank", refused.Message);
            }
        }, iter: 2000);
    }

    [Fact]
    public void A_record_that_leaves_the_grid_is_named()
    {
        var layout = Examples.Layout("relative-lines.toml");
        foreach (var leaving in new ulong[] { 0x4301, 0x0300 }) // works two cells along -X from the corner, and steps one
        {
            var fault = Assert.Single(LayoutProof.Of(LayoutImage.Of(layout, [0x4100, leaving, 0]), Plotter).Proof.Faults);
            Assert.Equal(("record 1 (byte 2)", true), (fault.Refusal.Place, fault.Refusal.Found.Contains("(-1, 0)", StringComparison.Ordinal)));
        }
    }

    [Fact]
    public void An_image_larger_than_the_store_or_without_an_end_is_no_proof()
    {
        var layout = Examples.Layout("built-in-4.toml");
        Assert.Equal(JobRule.LargerThanStore, LayoutProof.Of(LayoutImage.Of(layout, [.. Enumerable.Repeat(0x200000UL, 90), 0]), Plotter).Proof.Faults[0].Rule);
        Assert.Equal(JobRule.NoEnd, LayoutProof.Of(LayoutImage.Of(layout, [0x200000]), Plotter).Proof.Faults[0].Rule);
        Assert.True(LayoutProof.Of(LayoutImage.Of(layout, [.. Enumerable.Repeat(0x200000UL, 85)]), Plotter).Proof.IsProved);
    }

    [Fact]
    public void An_again_that_never_ends_is_stopped()
    {
        var image = LayoutImage.Of(Examples.Layout("rows-only.toml"), [.. Enumerable.Repeat(0x20000000UL, 40), 0x8027FFFF, 0]);
        Assert.Equal(JobRule.TooLong, Assert.Single(LayoutProof.Of(image, Plotter).Proof.Faults).Rule);
    }

    private static int End(byte[] bytes)
    {
        for (var at = 0; ; at += 3)
            if (bytes[at] == 0 && bytes[at + 1] == 0 && bytes[at + 2] == 0)
                return at + 3;
    }
}
