import { Dialog, Heading, Modal, ModalOverlay } from "react-aria-components";
import { useSession, useShown } from "../store/open";

/** ConflictDialog shows both values where two people changed the same thing; nothing was applied. */
export function ConflictDialog() {
  const session = useSession();
  const clash = useShown((shown) => shown.clash);
  return (
    <ModalOverlay className="over" isOpen={clash !== null}>
      <Modal className="leaf">
        <Dialog role="alertdialog">
          <Heading slot="title">Somebody changed the same thing meanwhile</Heading>
          <p className="small">
            Your change “{clash?.change.title}” was not applied. Which value should stand?
          </p>
          <table className="schedule">
            <thead>
              <tr>
                <th>What</th>
                <th>Yours</th>
                <th>Theirs, as it stands</th>
              </tr>
            </thead>
            <tbody>
              {clash?.conflict.paths.map((row) => (
                <tr key={row.path}>
                  <td>{row.name}</td>
                  <td className="strong">{row.yours === "" ? "(nothing)" : row.yours}</td>
                  <td>{row.theirs === "" ? "(nothing)" : row.theirs}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <div className="doings">
            <button type="button" className="do first" onClick={() => session.settle(true)}>
              Mine stands
            </button>
            <button type="button" className="do" onClick={() => session.settle(false)}>
              Theirs stands
            </button>
          </div>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
