namespace FuelHistory.Client.Forms;

/// <summary>How a text was understood, in words; or, where it was not, what may be written instead.</summary>
internal sealed record ReadBack(string Said, bool Understood = true);
