using System.Text;
using Bridge.Jobs;

namespace Bridge.Cli;

/// <summary>
/// The program's output, which may lead to a disk that is full or a terminal that is gone. To a command whose result it is, that is trouble;
/// a run that has begun goes on without it.
/// </summary>
internal sealed class OutputWriter(TextWriter inner) : TextWriter
{
    private Action<IOException> _onTrouble = static trouble => throw new RefusedException(
        "the output", trouble.Message.TrimEnd('.'), "a file or terminal that takes it", "Make room, or send the output elsewhere.");

    public override Encoding Encoding => inner.Encoding;

    /// <summary>From now on what cannot be written is left out; whoever asks is told so the first time.</summary>
    public void GoOnWithout(Action<IOException> tellOnce) => _onTrouble = trouble =>
    {
        _onTrouble = static _ => { };
        tellOnce(trouble);
    };

    public override void Write(char value) => Try(() => inner.Write(value));

    public override void Write(string? value) => Try(() => inner.Write(value));

    public override void Write(char[] buffer, int index, int count) => Try(() => inner.Write(buffer, index, count));

    public override void WriteLine(string? value) => Try(() => inner.WriteLine(value));

    public override void Flush() => Try(inner.Flush);

    private void Try(Action write)
    {
        try
        {
            write();
        }
        catch (IOException trouble)
        {
            _onTrouble(trouble);
        }
    }
}
