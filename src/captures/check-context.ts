export { type CheckCircumstances, makeCheckContext } from '../checks/check-context.js';
