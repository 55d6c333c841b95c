using System.Text;
using Bridge.Jobs;

namespace Bridge.Cli.Tests;

public class OutputTests
{
    [Theory]
    [InlineData(9600, 0.2)] // ATmega328P datasheet, examples of UBRR settings at 16 MHz, U2X = 1
    [InlineData(19200, 0.2)]
    [InlineData(38400, 0.2)]
    [InlineData(57600, -0.8)]
    [InlineData(76800, 0.2)]
    [InlineData(115200, 2.1)]
    [InlineData(230400, -3.5)]
    [InlineData(250000, 0.0)]
    [InlineData(500000, 0.0)]
    [InlineData(1000000, 0.0)]
    public void A_controller_at_16_MHz_misses_a_baud_rate_as_its_datasheet_says(int baud, double percent)
    {
        Assert.Equal(percent, BaudError.Percent(baud), 0.05);
        Assert.Equal(Math.Abs(percent) > 1.5, BaudError.Caution(baud) is not null);
    }

    [Theory]
    [InlineData(0, "0.0 s")]
    [InlineData(59.94, "59.9 s")]
    [InlineData(59.96, "1 min 00 s")]
    [InlineData(119.6, "2 min 00 s")]
    [InlineData(3599.4, "59 min 59 s")]
    [InlineData(3599.6, "1 h 00 min")]
    [InlineData(7260, "2 h 01 min")]
    [InlineData(7199.9, "2 h 00 min")]
    public void Times_are_said_as_people_say_them(double seconds, string words) => Assert.Equal(words, Durations.Of(seconds));

    [Fact]
    public void Output_that_cannot_be_written_is_refused()
    {
        using var output = new OutputWriter(new FullWriter());
        Assert.Equal("the output", Assert.Throws<RefusedException>(() => output.WriteLine("a result")).Refusals[0].Place);
    }

    [Fact]
    public void A_run_goes_on_without_its_output_and_says_so_once()
    {
        using var error = new StringWriter();
        using var output = new OutputWriter(new FullWriter());
        var report = new Report(output, error);
        report.GoOnWithoutOutput();
        report.Line("one");
        report.Line("two");
        Assert.Equal("No more can be shown (no room); the run goes on.", error.ToString().TrimEnd());
    }

    [Fact]
    public void Trouble_that_cannot_be_told_is_no_further_trouble() => new Report(new OutputWriter(new FullWriter()), new FullWriter()).Problem("a line");

    [Theory]
    [InlineData("kite [bold].txt", "kite [bold].txt")]
    [InlineData("a\u001b[31mb\nc", "a\\x1B[31mb\\x0Ac")]
    [InlineData("Höhe 日本", "Höhe 日本")]
    public void A_control_character_cannot_steer_the_terminal(string text, string shown) => Assert.Equal(shown, Shown.Of(text));

    private sealed class FullWriter : TextWriter
    {
        public override Encoding Encoding => Encoding.UTF8;

        public override void Write(char value) => throw new IOException("no room.");
    }
}
