namespace Bridge.Jobs;

/// <summary>How well an axis finds its zero again, as it was measured: where its endstop closed, reference after reference, on one scale.</summary>
/// <param name="Readings">How many references were read, 2 to 1000.</param>
/// <param name="MeanMm">Their mean, from where the first one closed, in mm, -10 to 10.</param>
/// <param name="DeviationMm">Their sample standard deviation, with n - 1, in mm, 0 to 10: that of one reference.</param>
public sealed record Repeatability(int Readings, double MeanMm, double DeviationMm);
