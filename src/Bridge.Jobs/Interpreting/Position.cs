namespace Bridge.Jobs;

/// <summary>Where a job stands.</summary>
/// <param name="Cell">The present cell.</param>
/// <param name="Layer">The present layer, 0 and up.</param>
/// <param name="Head">The present head.</param>
public readonly record struct Position(Cell Cell, int Layer, Head Head);

/// <summary>One cell worked.</summary>
/// <param name="Cell">The cell.</param>
/// <param name="Layer">Its layer.</param>
/// <param name="Head">The head that works it.</param>
/// <param name="Index">The record of the image that works it, from 0.</param>
public readonly record struct WorkedCell(Cell Cell, int Layer, Head Head, int Index);
