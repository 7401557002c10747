namespace Aslaid.Record;

/// <summary>
/// What the shots of a session have in common: base, set-up, site fit. It shifts all of them alike, so that it cancels in what
/// is measured within the session.
/// </summary>
/// <param name="CheckShots">Check shots that tell of it.</param>
/// <param name="UPlan">Standard uncertainty per plan axis, metres.</param>
/// <param name="UHeight">Standard uncertainty in height, metres.</param>
/// <param name="East">Mean misfit on control, metres, shot minus known; 0 without check shots. Nothing is shifted by it.</param>
/// <param name="North">Mean misfit on control, metres.</param>
/// <param name="Height">Mean misfit on control, metres.</param>
public readonly record struct SessionAccuracy(int CheckShots, double UPlan, double UHeight, double East, double North, double Height);
