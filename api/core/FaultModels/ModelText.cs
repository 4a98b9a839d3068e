namespace FuelHistory.Core.FaultModels;

/// <summary>The text of a fault model or of a shared piece, with the name that messages give it.</summary>
public sealed record ModelText(string Name, string Json);

/// <summary>Where something was written. Lines count from 1.</summary>
public sealed record Place(string File, int Line)
{
    public override string ToString() => $"{File}, line {Line}";
}
