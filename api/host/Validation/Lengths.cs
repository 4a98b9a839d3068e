namespace FuelHistory.Host.Validation;

/// <summary>The longest texts that are kept, in characters.</summary>
internal static class Lengths
{
    public const int Name = 120;
    public const int Reason = 500;
    public const int Note = 4000;
    public const int Label = 60;
}
