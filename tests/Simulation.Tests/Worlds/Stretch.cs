using Bridge.Runs;

namespace Simulation.Tests;

/// <summary>A part of a run that is one run on the wire: from its beginning, or from where it was gone on with after the board had forgotten it.</summary>
/// <param name="RunId">Its number on the wire.</param>
/// <param name="Course">What it executes.</param>
/// <param name="Start">Cells of the job before its start.</param>
/// <param name="WorkedBefore">Cells that the gantry had worked before it.</param>
internal sealed record Stretch(ushort RunId, Course Course, int Start, int WorkedBefore);
