using Board.Emulator;
using Bridge.Jobs;
using Bridge.Wire;

namespace Board.Bench;

/// <summary>A board on its way, with or without a line that is never silent.</summary>
internal sealed class MovingBoard : IDisposable
{
    private const int Times = 16;

    private MovingBoard(EmulatedBoard board, BoardHost host, LineLoad? load) => (Board, Host, Load) = (board, host, load);

    public EmulatedBoard Board { get; }

    public BoardHost Host { get; }

    public LineLoad? Load { get; }

    /// <summary>A board that goes from (0, 0) to a cell and back.</summary>
    public static MovingBoard Start(double stepsPerSecond, Cell to, int? loadSeed)
    {
        var board = new EmulatedBoard(BenchMachine.Of(stepsPerSecond), (-70, -70, 0));
        var host = new BoardHost(board);
        host.MakeReady();
        host.Start(Image.Of(RecordWidth.Four,
            [Record.Go(Head.A, to), Record.Go(Head.A, new Cell(0, 0)), Record.Again(RecordWidth.Four, 2, Times), Record.End]));
        if (!host.Until(() => host.Last.State == MachineState.Execute))
            throw new InvalidOperationException("The board does not start.");
        LineLoad? load = null;
        if (loadSeed is { } seed)
            load = new LineLoad(board.Chip, host.Link.Session, (byte)(host.Last.AnswerNumber + 1), seed);
        return new MovingBoard(board, host, load);
    }

    public void Dispose() => Board.Dispose();
}
